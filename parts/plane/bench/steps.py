"""What a build of a bench plane does, in order."""

from __future__ import annotations

from parts.plane import papers
from parts.plane.bench import papers as bench_papers
from parts.plane.bench.casting_marks import MARKS
from parts.plane.paper_steps import book_steps, casting_steps, handed_over, sheet_steps
from parts.plane.pattern_papers import cap_steps
from parts.plane.run import Step, all_numbers, model

WHOLE = ("lever_cap", "hardware", "looks")  # what of the second process the whole plane needs
OWN = ("body", "frog", "blade", "chipbreaker", "handle")  # parts of the assembly that need nothing of it
OTHERS = ("lever_cap", "hardware")
AHEAD = (*WHOLE, *handed_over(MARKS))
GIVEN = (
    "body_casting", "body", "body_pattern", "frog_casting", "frog", "frog_pattern", "blade", "chipbreaker",
    "tote_local", "knob_local",
)  # fmt: skip

STEPS = [
    Step("body casting", "body", "models", model("body_casting")),
    Step("body", "body", "models", model("body")),
    Step("body pattern", "body", "models", model("body_pattern")),
    Step("frog casting", "frog", "models", model("frog_casting")),
    Step("frog", "frog", "models", model("frog")),
    Step("frog pattern", "frog", "models", model("frog_pattern")),
    Step("blade", "blade", "models", model("blade")),
    Step("chipbreaker", "chipbreaker", "models", model("chipbreaker")),
    Step("tote", "tote", "models", model("tote")),
    Step("knob", "knob", "models", model("knob")),
    Step("lever cap", "lever-cap", "models", model("lever_cap"), second=True),
    Step("small parts", "plane", "models", model("hardware"), second=True),
    Step("weights and meshes of these", "plane", "models", papers.looks(*OTHERS), second=True),
    Step("STEP of the body", "body", "STEP", papers.body_step),
    Step("STEP of the blade", "blade", "STEP", papers.blade_step),
    Step("STEP of the chipbreaker", "chipbreaker", "STEP", bench_papers.chipbreaker_step),
    Step("STEP of the tote", "tote", "STEP", papers.tote_step),
    Step("STEP of the knob", "knob", "STEP", papers.knob_step),
    Step("DXF of the body", "body", "DXF", bench_papers.body_dxf),
    Step("DXF of the blade", "blade", "DXF", papers.blade_dxf),
    Step("DXF of the tote", "tote", "DXF", papers.tote_dxf),
    Step("DXF of the knob", "knob", "DXF", papers.knob_dxf),
    Step("STEP of the frog", "frog", "STEP", bench_papers.frog_step),
    Step("STEP of the lever cap", "lever-cap", "STEP", papers.lever_cap_step, second=True),
    Step("STEP of the cap's castings", "lever-cap", "STEP", cap_steps, second=True),
    Step("lists and cards", "lists", "lists", papers.lists, second=True),
    Step("cut plan", "lists", "lists", papers.cut_plan, second=True, paper=True),
    *casting_steps({"body": "body", "frog": "frog", "lever cap": "lever-cap", "cam lever": "lever-cap"}),
    Step("weights and meshes", "plane", "pictures", papers.weigh_and_mesh(*OWN)),
    Step("STEP of the plane", "plane", "STEP", papers.plane_step, second=True, given=True),
    Step("numbers", "plane", "numbers", all_numbers, needs=WHOLE),
    Step("pictures", "plane", "pictures", papers.picture, needs=WHOLE),
    *sheet_steps(("body", "frog", "blade", "chipbreaker", "tote", "knob"), ("lever-cap", "plane", "lists"), AHEAD),
    *book_steps(AHEAD),
]
