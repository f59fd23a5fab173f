"""The blade card of one plane: everything the blade maker and the heat treater need."""

from __future__ import annotations

from pathlib import Path

from parts.blade import bedding_numbers as tolerances
from parts.blade import stock
from parts.blade.card import Card, blade_card, card_text
from parts.blade.heat_treat import heat_treat_plan
from parts.plane.design import Design
from parts.plane.numbers import plane_numbers
from shared.errors import RequestError
from shared.mouth_stack import mouth_stack


def card_of(d: Design) -> Card:
    """Return the card.

    Raises:
        InputError: the hardness is out of the steel's reach.
    """
    blade, spec = d.mechanism.blade, d.spec
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
        bedding=numbers["bedding"],
        chipbreaker=numbers["chipbreaker"],
        identity={"spec": d.loaded.source.sha256[:12], "works": d.shop.works.name},
        units=spec.units,
    )


def blade_card_text(d: Design) -> str:
    """Return the card as plain text."""
    return card_text(card_of(d)).rstrip("\n") + "\n"


def draw_blade_card(d: Design, folder: Path) -> None:
    """Draw the card's pictures into a folder: bed section, camber, temper curve, mouth stack."""
    from parts.blade.card_pictures import card_figures, save_picture

    blade, spec = d.mechanism.blade, d.spec
    numbers = plane_numbers(d)
    plan = heat_treat_plan(spec.blade.steel, spec.blade.hardness, blade.thickness, cold_c=spec.blade.cold_treatment)
    figures = card_figures(
        orientation="bevel-down",
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
        support_height=numbers["bedding"].value("support_height_mm"),
        temper=plan.temper,
        stack=mouth_stack(
            spec.bed.angle,
            steel_under_edge=blade.thickness,
            thickness_matters=True,
            bed_position_tol=tolerances.BED_POSITION_TOL_MM,
            bed_angle_tol=tolerances.BED_ANGLE_TOL_DEG,
            thickness_tol=tolerances.THICKNESS_TOL_MM,
            front_tol=tolerances.FRONT_TOL_MM,
            datum_height=d.mechanism.frog.high_z,
        ),
    )
    for stem, figure in figures.items():
        save_picture(figure, folder / f"{stem}.png")
