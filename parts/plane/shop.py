"""The works' own practice, read from specs/shop.toml; every key has a default, so the file may be absent."""

# mypy: disable-error-code="valid-type"
# A field type such as Length(50, 900) is made by a call, which pydantic reads and mypy does not.
from pathlib import Path
from typing import Annotated, Literal

from pydantic_core import PydanticCustomError

from parts.handle.blanks import WoodPractice
from shared.casting.alloy import alloy, alloy_ids
from shared.casting.contraction import Contraction, alloy_contraction
from shared.errors import Fault, InputError
from shared.fields import Angle, Field, Length, Mass, Section, Share, Temperature, Time
from shared.fields import Contraction as ContractionField
from shared.section import After
from shared.specfile import SourceText, read_text, validate


def _pattern_metal(value: str) -> str:
    good = [i for i in alloy_ids() if "pattern" in alloy(i).uses]
    if value not in good:
        raise PydanticCustomError("choice", "{allowed}", {"allowed": "one of " + ", ".join(good), "choices": good})
    return value


PatternMetal = Annotated[str, After(_pattern_metal)]


class WorksSpec(Section):
    """Who this practice belongs to."""

    name: str = "Larch Lane Plane Works"
    note: str = "invented demo data"


class ContractionSpec(Section):
    """The shop's own contraction of one alloy: `all` for every axis, x, y, z where measured; `note` says how."""

    all: ContractionField(0.0, 0.04) | None = None
    x: ContractionField(0.0, 0.04) | None = None
    y: ContractionField(0.0, 0.04) | None = None
    z: ContractionField(0.0, 0.04) | None = None
    annealed: bool = False
    note: str = ""

    @property
    def measured(self) -> dict[str, float]:
        """The values that are given [-], by "all", "x", "y", "z"."""
        given = {"all": self.all, "x": self.x, "y": self.y, "z": self.z}
        return {k: v for k, v in given.items() if v is not None}


class PatternSpec(Section):
    """How patterns are made."""

    metal: PatternMetal = Field("aluminium-pattern-metal", description="metal that working patterns are cast in")
    cast_in_metal: bool = Field(True, description="working pattern cast from a master (double contraction)")
    rapping: Length(0, 1) = Field(0.0, description="taken off the pattern along and across, never in height")
    distortion_per_metre: Length(-5, 5) = Field(
        0.0, description="bow seen on 1 m of casting, goes by length²; positive: the middle of the sole comes out high"
    )
    shrink_rule_denominator: Literal[16, 32, 64, 128] = 64


class CastingSpec(Section):
    """Tolerances, allowances and limits asked of the foundry (ISO 8062)."""

    moulding: Literal["machine", "hand"] = "machine"
    tolerance_grade: int = Field(9, ge=1, le=16, description="DCTG (CT) of dimensions")
    wall_grade_offset: int = Field(1, ge=0, le=3, description="grades coarser for walls between as-cast faces")
    machining_grade: Literal["A", "B", "C", "D", "E", "F", "G", "H", "J", "K"] = "E"
    draft_outside: Angle(0.25, 5) = 1.5
    draft_inside: Angle(0.25, 7) = 2.0
    radius_inside_minimum: Length(0.5, 15) = 3.0
    radius_outside_minimum: Length(0.0, 10) = 1.0
    hole_minimum: Length(3, 40) = Field(12.0, description="smaller holes are cast solid and drilled")


class FlaskSpec(Section):
    """One flask size on the shelf, inside measures."""

    name: str
    length: Length(150, 2000)
    width: Length(150, 1500)
    cope: Length(50, 500)
    drag: Length(50, 500)


def _flask(name: str, length: float, width: float, depth: float) -> FlaskSpec:
    inch = 25.4
    return FlaskSpec.model_validate(
        {"name": name, "length": length * inch, "width": width * inch, "cope": depth * inch, "drag": depth * inch}
    )


# common practice, no source: sizes in which snap flasks are usual
DEFAULT_FLASKS = (
    _flask("12x10", 12, 10, 4),
    _flask("16x12", 16, 12, 4),
    _flask("18x14", 18, 14, 5),
    _flask("22x16", 22, 16, 5),
    _flask("28x18", 28, 18, 6),
    _flask("34x22", 34, 22, 6),
    _flask("42x26", 42, 26, 8),
)


class MouldSpec(Section):
    """Match plate and mould."""

    flask: str | None = Field(None, description="name of the flask to use; left out: the smallest that fits")
    impressions: int = Field(2, ge=1, le=12, description="castings a mould")
    between_impressions: Length(10, 100) | None = Field(None, description="default: sand-cover table by mass")
    to_flask: Length(10, 100) | None = Field(None, description="default: sand-cover table by mass")
    plate_thickness: Length(4, 25) = 10.0
    pin_diameter: Length(6, 30) = 12.7
    pin_beyond_flask: Length(10, 80) = 32.0
    discharge_coefficient: Share(0.2, 1.0) = 0.65
    basin_above_cope: Length(0, 200) = Field(30.0, description="metal level in the basin above the cope's top")
    basin_diameter: Length(20, 300) = Field(40.0, description="narrowest pouring cup on a sprue; metal is left in it")


class MeltSpec(Section):
    """Furnace, taps, ladles and what is lost."""

    furnace: Mass(5, 50000) = Field(3000 * 0.45359237, description="metal the furnace holds")
    tap: Mass(5, 20000) = Field(1000 * 0.45359237, description="metal tapped (and treated) at once")
    ladle: Mass(1, 5000) = Field(
        250 * 0.45359237,
        description="metal a pouring ladle holds; above 25 kg it takes two carriers, above 50 kg a crane or trolley",
    )
    ladle_heel: Share(0, 0.3) = Field(0.04, description="pigged out of every ladle")
    melt_loss: Share(0, 0.2) = Field(0.03, description="lost as slag, dross and spill, of the metal charged")
    scrap: Share(0, 0.6) = Field(0.04, description="castings that are rejected")
    confidence: Share(0.5, 0.9999) = Field(0.95, description="that the good castings suffice")
    fade_limit: Time(60, 1800) = Field(480.0, description="last mould poured after magnesium treatment")
    first_pour_after: Time(0, 600) = Field(90.0, description="from treatment to the first mould: skim, carry")
    mould_changeover: Time(0, 120) = Field(6.0, description="from one mould to the next at pouring")
    pourers: int = Field(1, ge=1, le=10, description="ladles poured at the same time")
    ladle_cooling: float = Field(
        5.0, ge=0.5, le=40, description="what a full ladle loses [K/min]; measure yours: common practice, no source"
    )
    pour_temperature: Temperature(600, 1550) | None = Field(None, description="default: middle of the alloy's window")
    magnesium_residual: Share(0.0002, 0.001) = Field(0.00045, description="aim after treatment")


class HeatSpec(Section):
    """Stress relief and coating."""

    stress_relieve: bool = True
    temperature: Temperature(150, 700) | None = Field(None, description="default: middle of the alloy's window")
    bake_temperature: Temperature(100, 300) = Field((450 - 32) / 1.8, description="powder coat, metal temperature")
    bake_time: Time(60, 7200) = 1200.0


class WoodshopSpec(Section):
    """Saws and planers; the keys and defaults are those of `parts.handle.blanks.WoodPractice`."""

    kerf_rip: Length(0.2, 8) = 3.2
    kerf_crosscut: Length(0.2, 8) = 3.2
    kerf_bandsaw: Length(0.2, 4) = 0.8
    planing_per_face: Length(0, 8) = 1.6
    bandsaw_allowance: Length(0, 8) = Field(1.5, description="left outside the line for shaping")
    end_trim: Length(0, 150) = Field(25.0, description="off each end of a board")
    edge_clearance: Length(0, 15) = Field(1.6, description="jointed off each edge of a board")
    defect_clearance: Length(0, 30) = 3.0
    turning_allowance: Length(0, 8) = 1.5
    knob_end_allowance: Length(0, 20) = 3.0
    grain_tolerance: Angle(0, 15) = Field(3.0, description="a piece may be turned this far off the board's length")
    cut_step: Length(0.05, 5) = Field(0.5, description="finest setting of stop and fence")
    keep_length: Length(0, 3000) = Field(300.0, description="shorter offcuts are not kept")
    keep_width: Length(0, 500) = Field(60.0, description="narrower offcuts are not kept")
    match_sets: bool = Field(True, description="tote and knob of one plane from one board where possible")


class ClimateSpec(Section):
    """Air where the wood is worked and where the plane will live."""

    shop_temperature: Temperature(-10, 45) = 20.0
    shop_humidity: Share(0.05, 0.98) = 0.45
    customer_temperature: Temperature(-10, 45) = 21.0
    customer_humidity_low: Share(0.05, 0.98) = 0.25
    customer_humidity_high: Share(0.05, 0.98) = 0.70

    def check_whole(self) -> None:
        """Refuse a driest climate that is wetter than the wettest."""
        if self.customer_humidity_low > self.customer_humidity_high:
            raise PydanticCustomError(
                "quantity", "{allowed}", {"allowed": "customer_humidity_low not above customer_humidity_high"}
            )


class PaperSpec(Section):
    """Drawing sheets."""

    size: Literal["auto", "A4", "A3", "A2", "A1", "ANSI A", "ANSI B", "ANSI C", "ANSI D"] = "auto"
    drawn_by: str = "Larch Lane drawing office (invented)"


class ShopSpec(Section):
    """The whole of specs/shop.toml."""

    units: Literal["inch", "mm"] = "mm"
    works: WorksSpec = WorksSpec()
    contraction: dict[str, ContractionSpec] = Field(default_factory=dict, description="by alloy id")
    pattern: PatternSpec = PatternSpec()
    casting: CastingSpec = CastingSpec()
    mould: MouldSpec = MouldSpec()
    flask: tuple[FlaskSpec, ...] = Field(DEFAULT_FLASKS, description="flasks on the shelf")
    melt: MeltSpec = MeltSpec()
    heat: HeatSpec = HeatSpec()
    woodshop: WoodshopSpec = WoodshopSpec()
    climate: ClimateSpec = ClimateSpec()
    paper: PaperSpec = PaperSpec()

    def contraction_of(self, alloy_id: str, length_mm: float | None = None) -> Contraction:
        """Return the contraction [-] that patterns for an alloy are built with: the shop's own, else the table's.

        Args:
            alloy_id: id of the cast alloy.
            length_mm: largest size of the casting [mm], for grey iron's table.
        """
        own = self.contraction.get(alloy_id, ContractionSpec())
        where = f"shop.toml [contraction.{alloy_id}]"
        return alloy_contraction(alloy(alloy_id), length_mm, annealed=own.annealed, measured=own.measured, where=where)

    def wood_practice(self) -> WoodPractice:
        """Return the woodshop's practice as the handle's arithmetic takes it [mm, deg]."""
        ends = {"grain_tolerance": "_deg", "match_sets": ""}
        return WoodPractice(**{k + ends.get(k, "_mm"): v for k, v in self.woodshop.model_dump().items()})

    def master_contraction(self) -> Contraction | None:
        """Return the contraction of the working pattern's metal [-]; None when patterns are cut, not cast."""
        return self.contraction_of(self.pattern.metal) if self.pattern.cast_in_metal else None


def _cross_faults(shop: ShopSpec, source: SourceText) -> list[Fault]:
    faults = []
    for alloy_id, own in shop.contraction.items():
        key = f"contraction.{alloy_id}"
        if alloy_id not in alloy_ids():
            faults.append(source.fault(key, "one of " + ", ".join(alloy_ids()), read=repr(alloy_id)))
        elif own.annealed and alloy(alloy_id).contraction_annealed is None:
            faults.append(source.fault(f"{key}.annealed", "false: this alloy has no annealed contraction"))
    names = [f.name for f in shop.flask]
    if shop.mould.flask is not None and shop.mould.flask not in names:
        faults.append(source.fault("mould.flask", "one of the flasks on the shelf: " + ", ".join(names)))
    if len(set(names)) != len(names):
        faults.append(source.fault("flask", "each flask's name only once", read=", ".join(names)))
    if shop.melt.tap > shop.melt.furnace * 1.0001:
        faults.append(source.fault("melt.tap", f"at most the furnace's {shop.melt.furnace:.0f} kg"))
    if shop.melt.ladle > shop.melt.tap * 1.0001:
        faults.append(source.fault("melt.ladle", f"at most the tap's {shop.melt.tap:.0f} kg"))
    return faults


def load_shop(path: str | Path | None = None) -> ShopSpec:
    """Read the shop's practice.

    Args:
        path: a shop.toml, or None for the built-in defaults.

    Raises:
        InputError: one fault for each wrong key or value.
    """
    if path is None:
        return ShopSpec()
    source = read_text(path)
    shop = validate(source, ShopSpec)
    faults = _cross_faults(shop, source)
    if faults:
        raise InputError(faults)
    return shop
