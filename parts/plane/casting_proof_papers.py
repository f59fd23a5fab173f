"""The build step that proves every casting and writes the record: text, data, a picture a cast part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.plane.casting_proof import casting_proofs
from parts.plane.casting_proof_text import proof_json, proof_text
from shared.files import write_json

if TYPE_CHECKING:
    from parts.plane.run import Run


def casting_proof_papers(run: Run) -> None:
    """Write `castings/proof.txt`, `castings/proof.json` and `castings/<part>.png`."""
    from parts.plane.casting_pictures import draw_proof  # loads matplotlib

    plane = run.design.spec.plane
    title = f"{plane.name}, revision {plane.revision}"
    proofs = casting_proofs(run.models)
    folder = run.folder("castings")
    heading = f"{title}   spec {run.design.loaded.source.sha256[:12]}   {run.design.shop.works.name}"
    (folder / "proof.txt").write_text(proof_text(proofs, heading, run.design.spec.units), encoding="utf-8")
    write_json(folder / "proof.json", proof_json(proofs))
    for p in proofs:
        draw_proof(p, title, folder / f"{p.case.name.replace(' ', '-')}.png")
