package tongue

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A walk gathers from the source of the program what it says on pages.
type walk struct {
	t     *testing.T
	says  map[string]token.Position
	bare  map[string]token.Position // text in markup that no braces stand around
	files *token.FileSet
}

// speakers are the functions whose arguments are said, and which argument it is.
var speakers = map[string]int{"Say": 0, "Of": 0, "Word": 0, "Term": 0, "Called": 0, "plainFact": 0, "heading": 1, "add": 1, "fact": 0, "list": 0}

// writers are the functions of package markup that take markup.
var writers = map[string]bool{"Raw": true, "If": true, "With": true, "Each": true, "Around": true}

var (
	inBraces = regexp.MustCompile(`\{([^{}]+)\}`)
	tags     = regexp.MustCompile(`(?s)<[^>]*>|^[^<]*">|<[^>]*$|\{[^{}]+\}|^[a-z" ]*="[^<>]*"?$|^ [a-z-]+="[^"]*$`)
	letters  = regexp.MustCompile(`[A-Za-z]{2,}`)
)

// english are the files of pages that only the workshop sees, in English.
var english = map[string]bool{"page_selling.go": true, "page_ahead.go": true}

func (w *walk) file(path string, f *ast.File) {
	consts := map[string]string{}
	text := func(e ast.Expr) (string, bool) { return text(e, consts) }
	for _, d := range f.Decls {
		if g, ok := d.(*ast.GenDecl); ok {
			w.table(g, consts)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			if id, ok := n.Type.(*ast.Ident); ok && id.Name == "Plate" && len(n.Elts) > 0 {
				label := n.Elts[0]
				if kv, ok := label.(*ast.KeyValueExpr); ok {
					label = kv.Value
				}
				if s, ok := text(label); ok {
					w.says[s] = w.files.Position(n.Pos())
				}
			}
		case *ast.CallExpr:
			name := ""
			switch fun := n.Fun.(type) {
			case *ast.SelectorExpr:
				name = fun.Sel.Name
			case *ast.Ident:
				name = fun.Name
			}
			if at, ok := speakers[name]; ok && len(n.Args) > at {
				if s, ok := text(n.Args[at]); ok && letters.MatchString(s) {
					w.says[s] = w.files.Position(n.Pos())
				}
				if name == "add" { // a key figure with its note
					for _, a := range n.Args[2:] {
						if s, ok := text(a); ok && letters.MatchString(s) {
							w.says[s] = w.files.Position(n.Pos())
						}
					}
				}
			}
			if !writers[name] {
				return true
			}
			for _, a := range n.Args {
				s, ok := text(a)
				if !ok {
					continue
				}
				for _, m := range inBraces.FindAllStringSubmatch(s, -1) {
					w.says[m[1]] = w.files.Position(n.Pos())
				}
				if rest := tags.ReplaceAllString(s, " "); !english[filepath.Base(path)] && letters.MatchString(rest) && strings.Contains(s, "<") {
					w.bare[strings.TrimSpace(rest)] = w.files.Position(a.Pos())
				}
			}
		}
		return true
	})
}

// table takes in what stands in the tables of the pages: what they and their parts are called.
func (w *walk) table(g *ast.GenDecl, consts map[string]string) {
	for _, spec := range g.Specs {
		v, ok := spec.(*ast.ValueSpec)
		if !ok {
			continue
		}
		for i, value := range v.Values {
			if s, ok := text(value, consts); ok && g.Tok == token.CONST {
				consts[v.Names[i].Name] = s
			}
			if !tables_[v.Names[i].Name] {
				continue
			}
			ast.Inspect(value, func(n ast.Node) bool {
				if e, ok := n.(ast.Expr); ok {
					if s, ok := text(e, consts); ok && phrase.MatchString(s) {
						w.says[s] = w.files.Position(n.Pos())
					}
				}
				return true
			})
		}
	}
}

// tables_ are those of which every phrase is said.
var tables_ = map[string]bool{"pages": true, "machines": true, "places": true, "packLists": true, "sources": true, "happened": true, "snagGroups": true, "details": true, "table": true}

var phrase = regexp.MustCompile(`^[A-Z][a-z]+( |$)|^[a-z]+ [a-z]+`)

// text is a constant text.
func text(e ast.Expr, consts map[string]string) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil && e.Kind == token.STRING
	case *ast.Ident:
		s, ok := consts[e.Name]
		return s, ok
	case *ast.BinaryExpr:
		a, ok := text(e.X, consts)
		b, too := text(e.Y, consts)
		return a + b, ok && too
	}
	return "", false
}

// gathered walks the source.
func gathered(t *testing.T) *walk {
	w := &walk{t, map[string]token.Position{}, map[string]token.Position{}, token.NewFileSet()}
	for _, dir := range []string{"..", "../../journal"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") {
				return err
			}
			f, err := parser.ParseFile(w.files, path, nil, 0)
			if err == nil && (dir == ".." || speaks(f)) {
				w.file(path, f)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return w
}

// speaks tells whether a file of the journal says something on pages.
func speaks(f *ast.File) bool {
	return slices.ContainsFunc(f.Imports, func(i *ast.ImportSpec) bool { return strings.Contains(i.Path.Value, "journal/speech") }) || f.Name.Name == "view"
}

func TestKeys(t *testing.T) {
	w := gathered(t)
	var list []string
	for s := range w.says {
		list = append(list, s)
	}
	slices.Sort(list)
	for _, s := range list {
		t.Log(s, "\t", w.says[s].Filename, w.says[s].Line)
	}
	for s, p := range w.bare {
		t.Log("BARE", s, p)
	}
}
