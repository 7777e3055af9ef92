package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	"strconv"
	"strings"
)

// hearingFiles are the sources whose constants decide what is heard, those that
// weigh most first.
func hearingFiles() []string {
	var all []string
	for _, name := range []string{"hear/evidence", "hear/choose", "hear/convincing", "hear/background", "hear/waits", "hear/sound", "hear/pair",
		"hear/model", "hear/release", "hear/class", "hear/chain", "hear/dial", "hear/buzz", "hear/hung", "hear/fast", "hear/timing/locate", "hear/scene/arc", "hear/scene/view", "hear/scene/sound", "hear/scene/lattice", "hear/scene/class", "hear/scene/odds", "hear/scene/way", "hear/surer", "hear/timing/fast", "hear/timing/doc", "hear/unheard", "firing", "hear/hear"} {
		all = append(all, "shutter/"+name+".go")
	}
	for _, name := range []string{"trigger", "channel", "listen", "ears", "unlike", "align/movement", "align/parts", "align/place", "align/waveform", "align/align",
		"align/typical", "align/template", "align/cells", "align/mixture", "align/overlaid", "align/whiten", "onset", "internal/num/level",
		"bands", "highpass", "excerpt", "gaps", "meter", "track", "transient"} {
		all = append(all, "dsp/"+name+".go")
	}
	return all
}

// constant is a number in the source: one with a name, or one in an expression that is not 0, 1
// or 2.
type constant struct {
	file       string
	where      string // function.name, or the function and the expression it stands in
	text       string // its value as written
	what       string // the comment on its line
	from, to   int    // bytes of the file that are its value
	whole      bool   // written as a whole number
	expression bool   // made of others
}

// findConstants lists the constants of a Go file, named ones first.
func findConstants(file string) ([]constant, error) {
	source, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("%w: run it from the top of the project", err)
	}
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, source, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	f := constantFinder{file: file, source: source, set: set, named: map[ast.Node]bool{}}
	for _, d := range tree.Decls {
		f.declared(d)
	}
	for _, d := range tree.Decls {
		f.standing(d)
	}
	return f.found, nil
}

type constantFinder struct {
	file   string
	source []byte
	set    *token.FileSet
	named  map[ast.Node]bool // the values that have a name
	found  []constant
}

// declared finds the constants with a name.
func (f *constantFinder) declared(d ast.Decl) {
	ast.Inspect(d, func(n ast.Node) bool {
		g, ok := n.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			return true
		}
		for _, s := range g.Specs {
			spec := s.(*ast.ValueSpec)
			for i, v := range spec.Values {
				f.named[v] = true
				if !isText(v) {
					c := f.constant(v, prefix(d)+spec.Names[i].Name)
					c.what = strings.TrimSpace(spec.Comment.Text())
					f.found = append(f.found, c)
				}
			}
		}
		return true
	})
}

// standing finds the numbers that stand in expressions.
func (f *constantFinder) standing(d ast.Decl) {
	var path []ast.Node
	ast.Inspect(d, func(n ast.Node) bool {
		if n == nil {
			path = path[:len(path)-1]
			return true
		}
		if f.named[n] {
			return false
		}
		path = append(path, n)
		if l, ok := n.(*ast.BasicLit); ok && isNumber(l) && !isTrivial(l) {
			f.found = append(f.found, f.constant(l, prefix(d)+"`"+f.expression(path[:len(path)-1])+"`"))
		}
		return true
	})
}

func (f *constantFinder) constant(v ast.Expr, where string) constant {
	from, to := f.set.Position(v.Pos()).Offset, f.set.Position(v.End()).Offset
	l, literal := v.(*ast.BasicLit)
	return constant{file: f.file, where: where, text: string(f.source[from:to]), from: from, to: to,
		expression: !literal, whole: literal && l.Kind == token.INT}
}

// expression is the innermost expression around a number that says what it is for.
func (f *constantFinder) expression(path []ast.Node) string {
	for i := len(path) - 1; i >= 0; i-- {
		switch path[i].(type) {
		case *ast.BinaryExpr, *ast.CallExpr, *ast.CompositeLit, *ast.AssignStmt:
			var b bytes.Buffer
			if printer.Fprint(&b, f.set, path[i]) == nil {
				return strings.Join(strings.Fields(strings.ReplaceAll(b.String(), "|", "\\|")), " ")
			}
		}
	}
	return "a number"
}

// prefix is the function that a declaration is, with a dot; nothing for others.
func prefix(d ast.Decl) string {
	if fn, ok := d.(*ast.FuncDecl); ok {
		return fn.Name.Name + "."
	}
	return ""
}

func isNumber(l *ast.BasicLit) bool { return l.Kind == token.INT || l.Kind == token.FLOAT }

func isTrivial(l *ast.BasicLit) bool {
	v, err := strconv.ParseFloat(l.Value, 64)
	return err == nil && (v == 0 || v == 1 || v == 2)
}

// isText tells whether a value is made of text.
func isText(v ast.Expr) bool {
	text := false
	ast.Inspect(v, func(n ast.Node) bool {
		l, ok := n.(*ast.BasicLit)
		text = text || ok && l.Kind == token.STRING
		return true
	})
	return text
}

// times are the values to try for a multiple of a constant. For half of an odd whole number they
// are that half and the whole number it rounds to.
func (c constant) times(by float64) []string {
	v, err := strconv.ParseFloat(c.text, 64)
	if c.expression || err != nil {
		return []string{fmt.Sprintf("((%s) * %g)", c.text, by)}
	}
	exact := strconv.FormatFloat(v*by, 'g', -1, 64)
	if rounded := fmt.Sprint(int(v*by + 0.5)); c.whole && rounded != exact && rounded != c.text {
		return []string{exact, rounded}
	}
	return []string{exact}
}

// key names a constant in the list of sources.
func (c constant) key() string {
	pkg, _, _ := strings.Cut(c.file, "/")
	return pkg + " " + c.where
}
