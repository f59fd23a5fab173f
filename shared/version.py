"""The version of planewright, said on papers and in the manifest."""

VERSION = "0.1.0"
