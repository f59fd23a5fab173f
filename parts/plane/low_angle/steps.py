"""What a build of a low-angle plane does, in order."""

from __future__ import annotations

from parts.plane import papers
from parts.plane.low_angle import papers as low_papers
from parts.plane.low_angle.casting_marks import MARKS
from parts.plane.paper_steps import book_steps, casting_steps, handed_over, sheet_steps
from parts.plane.pattern_papers import cap_steps
from parts.plane.run import Step, all_numbers, model

# what the whole plane needs of the second process
WHOLE = ("lever_cap_casting", "lever_cap", "adjuster", "hardware", "looks")
OWN = ("body", "toe_piece", "blade", "handle")  # parts of the assembly that need nothing of it
OTHERS = ("lever_cap", "adjuster", "hardware")
AHEAD = (*WHOLE, *handed_over(MARKS))
GIVEN = ("body_casting", "body", "body_pattern", "toe_piece", "blade", "tote_local", "knob_local")

STEPS = [
    Step("body casting", "body", "models", model("body_casting")),
    Step("body", "body", "models", model("body")),
    Step("body pattern", "body", "models", model("body_pattern")),
    Step("toe piece", "toe-piece", "models", model("toe_piece")),
    Step("blade", "blade", "models", model("blade")),
    Step("tote", "tote", "models", low_papers.tote),
    Step("knob", "knob", "models", model("knob")),
    Step("lever cap casting", "lever-cap", "models", model("lever_cap_casting"), second=True),
    Step("lever cap", "lever-cap", "models", model("lever_cap"), second=True),
    Step("depth adjuster", "plane", "models", model("adjuster"), second=True),
    Step("small parts", "plane", "models", model("hardware"), second=True),
    Step("weights and meshes of these", "plane", "models", papers.looks(*OTHERS), second=True),
    Step("STEP of the body", "body", "STEP", papers.body_step),
    Step("STEP of the toe piece", "toe-piece", "STEP", low_papers.toe_piece_step),
    Step("STEP of the blade", "blade", "STEP", papers.blade_step),
    Step("STEP of the tote", "tote", "STEP", low_papers.tote_step),
    Step("STEP of the knob", "knob", "STEP", papers.knob_step),
    Step("DXF of the body", "body", "DXF", low_papers.body_dxf),
    Step("DXF of the lever cap", "lever-cap", "DXF", low_papers.cap_dxf),
    Step("DXF of the blade", "blade", "DXF", papers.blade_dxf),
    Step("DXF of the tote", "tote", "DXF", low_papers.tote_dxf),
    Step("DXF of the knob", "knob", "DXF", papers.knob_dxf),
    Step("STEP of the lever cap", "lever-cap", "STEP", papers.lever_cap_step, second=True),
    Step("STEP of the cap's castings", "lever-cap", "STEP", cap_steps, second=True),
    Step("lists and cards", "lists", "lists", papers.lists, second=True),
    Step("cut plan", "lists", "lists", papers.cut_plan, second=True, paper=True),
    *casting_steps({"body": "body", "lever cap": "lever-cap"}),
    Step("weights and meshes", "plane", "pictures", papers.weigh_and_mesh(*OWN)),
    Step("STEP of the plane", "plane", "STEP", papers.plane_step, second=True, given=True),
    Step("numbers", "plane", "numbers", all_numbers, needs=WHOLE),
    Step("pictures", "plane", "pictures", papers.picture, needs=WHOLE),
    *sheet_steps(("body", "toe-piece", "blade", "tote", "knob"), ("lever-cap", "plane", "lists"), AHEAD),
    *book_steps(AHEAD),
]
