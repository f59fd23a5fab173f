"""The ground floor: units, spec reading, tables with sources, CAD helpers, drawing, files. It knows no part."""
