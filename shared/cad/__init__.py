"""Everything that needs the CAD kernel: solids, STEP files, projections, meshes, pictures.

Nothing here is imported by the numbers; callers import these modules inside the functions that build.
"""
