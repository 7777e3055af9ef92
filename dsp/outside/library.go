package outside

// SciPy is the library for Python. Its figures are written by the scripts in the
// testdata of a package, which say how they are run.
func SciPy() Source {
	return Source{Name: "SciPy 1.10.1", Figures: "written by the scripts in testdata beside each test, with Debian's python3-scipy"}
}
