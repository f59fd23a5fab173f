"""The blade card of one plane: everything the blade maker and the heat treater need."""

from __future__ import annotations

from pathlib import Path

from parts.blade import bedding_numbers as tolerances
from parts.blade import stock
from parts.blade.bedding import steel_under_edge
from parts.blade.card import Card, blade_card, card_text
from parts.blade.heat_treat import heat_treat_plan
from parts.plane.design import Design
from parts.plane.mouth_section import mouth_section
from parts.plane.numbers import plane_numbers
from shared.errors import RequestError
from shared.mouth_stack import mouth_stack
from shared.tables import table

BARS_MM = (914.4, 1828.8)  # bar lengths on sale, 36 and 72 in: common practice, no source
SAW_KERF_MM = 2.0  # metal bandsaw with dressing of the cut: common practice, no source


def card_of(d: Design, quantity: int | None = None) -> Card:
    """Return the card.

    Args:
        d: the plane.
        quantity: blades to make, for the bars to buy and the nitrogen of a batch; None leaves both out.

    Raises:
        InputError: the hardness is out of the steel's reach.
        RequestError: a blade is longer than every bar on sale.
    """
    blade, spec = d.blade, d.spec
    numbers = plane_numbers(d)
    try:
        blank = stock.blank(spec.blade.steel, blade.width, blade.length, blade.thickness)
    except RequestError:
        blank = None  # no bar in the table is large enough; the card says so
    return blade_card(
        plane=spec.plane.name,
        revision=spec.plane.revision,
        blade=numbers["blade"],
        plan=heat_treat_plan(spec.blade.steel, spec.blade.hardness, blade.thickness, cold_c=spec.blade.cold_treatment),
        blank=blank,
        length=blade.length,
        width=blade.width,
        thickness=blade.thickness,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        bars=None
        if blank is None or quantity is None
        else stock.bars_to_buy({blank.sawn_length: quantity}, BARS_MM, SAW_KERF_MM),
        kerf=SAW_KERF_MM,
        batch_kg=None if blank is None or quantity is None else quantity * _soft_mass(d, blank),
        bedding=numbers["bedding"],
        chipbreaker=numbers.get("chipbreaker"),
        identity={"spec": d.loaded.source.sha256[:12], "works": d.shop.works.name},
        units=spec.units,
        orientation=blade.orientation,
    )


def _soft_mass(d: Design, blank: stock.Blank) -> float:
    """Return the mass of one blank as it goes into the furnace [kg], slot not taken off."""
    width, length, thickness = blank.before_hardening
    density = float(table("steel")["physical"][d.spec.blade.steel]["density_kg_m3"])
    return width * length * thickness * density * 1e-9


def blade_card_text(d: Design, quantity: int | None = None) -> str:
    """Return the card as plain text; `quantity` as for `card_of`."""
    return card_text(card_of(d, quantity)).rstrip("\n") + "\n"


def draw_blade_card(d: Design, folder: Path) -> None:
    """Draw the card's pictures into a folder: bed section, temper curve, mouth stack, and camber where there is one."""
    from parts.blade.card_pictures import card_figures, save_picture

    blade, spec = d.blade, d.spec
    numbers = plane_numbers(d)
    plan = heat_treat_plan(spec.blade.steel, spec.blade.hardness, blade.thickness, cold_c=spec.blade.cold_treatment)
    figures = card_figures(
        orientation=d.orientation,
        bed=spec.bed.angle,
        thickness=blade.thickness,
        width=blade.width,
        bevel=blade.bevel,
        micro_bevel=blade.micro_bevel,
        micro_width=blade.micro_width,
        back_bevel=blade.back_bevel,
        camber_on_blade=numbers["blade"].value("camber_on_blade_mm"),
        camber_at_work=blade.camber_at_work,
        mouth_opening=spec.body.mouth_opening,
        metal=mouth_section(d),
        temper=plan.temper,
        stack=mouth_stack(
            spec.bed.angle,
            steel_under_edge=steel_under_edge(blade.orientation, blade.thickness, blade.back_bevel),
            thickness_matters=blade.orientation == "bevel-down",
            bed_position_tol=tolerances.BED_POSITION_TOL_MM,
            bed_angle_tol=tolerances.BED_ANGLE_TOL_DEG,
            thickness_tol=tolerances.THICKNESS_TOL_MM,
            front_tol=tolerances.FRONT_TOL_MM,
            datum_height=d.datum_height,
        ),
        units=spec.units,
    )
    for stem, figure in figures.items():
        save_picture(figure, folder / f"{stem}.png")
