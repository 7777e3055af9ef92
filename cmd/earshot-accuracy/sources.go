package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// outsidePackage is what tests use that hold figures against the outside.
const outsidePackage = "earshot/dsp/outside"

// writeSources runs all tests that compare figures with outside sources, and writes the results
// to a page. A test that fails is an error. If all are needed, so is a test that was skipped.
func writeSources(path string, all bool) error {
	tests, err := findOutside(".")
	if err != nil {
		return err
	}
	agreed, err := runOutside(tests)
	if err != nil {
		return err
	}
	if err := os.WriteFile(path, []byte(agreed.page()), 0o644); err != nil {
		return err
	}
	if all && len(agreed.skipped) > 0 {
		return fmt.Errorf("left out: %s", agreed.skipped[0])
	}
	return nil
}

// findOutside returns the names of the tests below a folder that compare figures with outside
// sources, by the folder of their package, both sorted.
func findOutside(root string) (map[string][]string, error) {
	found := map[string][]string{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && strings.HasPrefix(d.Name(), ".") && path != root:
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(path, "_test.go"):
			return nil
		}
		names, err := outsideTests(path)
		if dir := filepath.Dir(path); len(names) > 0 {
			found[dir] = append(found[dir], names...)
		}
		return err
	})
	if err == nil && len(found) == 0 {
		err = fmt.Errorf("no test uses %s: run it from the top of the project", outsidePackage)
	}
	return found, err
}

// outsideTests returns the tests of a file that call the package outside, or a
// function of the file that does.
func outsideTests(path string) ([]string, error) {
	tree, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	imported := slices.ContainsFunc(tree.Imports, func(s *ast.ImportSpec) bool { return s.Path.Value == strconv.Quote(outsidePackage) })
	if !imported {
		return nil, nil
	}
	uses := map[string]bool{}
	for more := true; more; {
		more = false
		for _, d := range tree.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && !uses[f.Name.Name] && calls(f, uses) {
				uses[f.Name.Name], more = true, true
			}
		}
	}
	var tests []string
	for _, d := range tree.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && uses[f.Name.Name] && strings.HasPrefix(f.Name.Name, "Test") {
			tests = append(tests, f.Name.Name)
		}
	}
	return tests, nil
}

// calls tells whether a function calls the package outside or one of the functions
// that do.
func calls(f *ast.FuncDecl, that map[string]bool) (found bool) {
	ast.Inspect(f, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			switch to := call.Fun.(type) {
			case *ast.Ident:
				found = found || that[to.Name]
			case *ast.SelectorExpr:
				pkg, ok := to.X.(*ast.Ident)
				found = found || ok && pkg.Name == filepath.Base(outsidePackage)
			}
		}
		return !found
	})
	return found
}
