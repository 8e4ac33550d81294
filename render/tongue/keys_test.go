package tongue

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
)

// A walk gathers from the source of the program what it says on pages.
type walk struct {
	consts map[string]string
	says   map[string]token.Position
	bare   map[string]token.Position // text in markup that no braces stand around
	files  *token.FileSet
}

// speakers are the functions whose arguments are said, and which argument it is.
var speakers = map[string]int{"Say": 0, "Of": 0, "Word": 0, "Term": 0, "Called": 0, "plainFact": 0, "sheets": 1, "add": 1, "fact": 0, "typed": 0, "list": 0, "lead": 2}

// writers are the functions of package markup that take markup.
var writers = map[string]bool{"Raw": true, "If": true, "With": true, "Quote": true, "Each": true, "Around": true}

var (
	inBraces = regexp.MustCompile(`\{([^{}]+)\}`)
	tags     = regexp.MustCompile(`(?s)<[^>]*>|^[^<]*"/?>|<[^>]*$|\{[^{}]+\}|^[a-z" ]*="[^<>]*"?$|^ [a-z-]+="[^"]*$`)
	letters  = regexp.MustCompile(`[A-Za-z]{2,}`)
)

// english are the files of pages that only the workshop sees, in English.
var english = map[string]bool{"page_choices.go": true}

func (w *walk) file(path string, f *ast.File) {
	text := func(e ast.Expr) (string, bool) { return text(e, w.consts) }
	for _, d := range f.Decls {
		if g, ok := d.(*ast.GenDecl); ok {
			w.table(g, w.consts)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			if id, ok := n.Type.(*ast.Ident); len(n.Elts) > 0 && (ok && id.Name == "Plate" || n.Type == nil && labelled(n.Elts[0])) {
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
				if rest := tags.ReplaceAllString(s, " "); letters.MatchString(rest) && strings.Contains(s, "<") {
					w.bare[strings.TrimSpace(rest)] = w.files.Position(a.Pos())
				}
			}
		}
		return true
	})
}

// labelled tells whether it is a key figure in a list of such.
func labelled(e ast.Expr) bool {
	kv, ok := e.(*ast.KeyValueExpr)
	if !ok {
		return false
	}
	id, ok := kv.Key.(*ast.Ident)
	return ok && id.Name == "Label"
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
var tables_ = map[string]bool{"pageTable": true, "machines": true, "partPlaces": true, "packLists": true, "packSections": true, "Grades": true, "sources": true, "happened": true, "snagGroups": true, "details": true, "table": true}

var phrase = regexp.MustCompile(`^[A-Z][a-z]+([ ,]|$)|^[a-z]+ [a-z]+`)

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
	w := &walk{map[string]string{}, map[string]token.Position{}, map[string]token.Position{}, token.NewFileSet()}
	for _, dir := range []string{"..", "../../journal", ".."} { // again, since a constant may stand behind its use
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") {
				return err
			}
			f, err := parser.ParseFile(w.files, path, nil, 0)
			if err == nil && !english[filepath.Base(path)] && (dir == ".." || speaks(f)) {
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

// terms are the words of the note language and of its tables that pages say.
func terms() []string {
	list := slices.Concat(note.Systems, note.Categories, note.Credits, note.Kinds, note.States, note.Results, note.Conditions, note.Origins,
		[]string{"dangerous", "major", "minor", "unclear", "official-inspection", journal.RoadworthinessTest, "powertrain", "chassis", "network", "generic", "maker's own", "open", "cleared", "remark", "opened again", "done"})
	for i, term := range list {
		list[i] = strings.ReplaceAll(term, "-", " ")
	}
	for _, r := range journal.BuiltInDueRules() {
		list = append(list, strings.ReplaceAll(r.Name, "-", " "), r.Because)
	}
	one := decimal.NewFromInt(1)
	for _, owed := range []decimal.Decimal{one, one.Neg()} {
		for _, row := range (&fact.Account{Asked: &one, Floor: &one, Agreed: &one, Deposit: &one, PartExchange: &one, Paid: &one, Owed: &owed, Claims: &one, Kept: &one, Told: true}).Rows() {
			list = append(list, row.Name)
		}
	}
	for _, g := range view.Grades {
		list = append(list, g.Name)
	}
	list = append(append(list, journal.AnnexTitles()...), journal.KnownEquipment...)
	for letter := 'A'; letter <= 'B'; letter++ {
		list = append(list, journal.SalvageOf(string(letter)).Means)
	}
	return list
}

// common are what jobs cards call the details of a vehicle, and what no sentence is.
var common = []string{"make", "model", "year", "colour", "color", "body style", "gearbox", "VIN", "registration", "odometer", "mileage", "equipment", "contact",
	"MONTHS", "SHORT MONTHS", "WEEKDAYS", "1,234.5", "%d %s", "“%s”", "GBP", "EUR", "NOK", "%d h", "%s and %s", "Net on the work", "%d grave snags"}

// Every language says all that the program says, and nothing else.
func TestEveryPhrase(t *testing.T) {
	w := gathered(t)
	for _, s := range terms() {
		w.says[s] = token.Position{Filename: "a table"}
	}
	for words, at := range w.bare {
		t.Errorf("%s: %q stands in markup without braces, so it is said in no other language", at, words)
	}
	if len(w.says) < 400 {
		t.Errorf("only %d phrases were found", len(w.says))
	}
	for _, code := range journal.Languages {
		l := Languages[code]
		if l == nil {
			t.Errorf("there is no table for %s", code)
			continue
		}
		for s, at := range w.says {
			if _, known := l.forms[s]; !known && code != English {
				t.Errorf("%s.txt lacks what %s says: %q", code, at, s)
			}
		}
		for s, f := range l.forms {
			if _, said := w.says[s]; !said && !slices.Contains(common, s) {
				t.Errorf("%s.txt has %q, which nothing says", code, s)
			}
			for _, form := range append(slices.Collect(maps.Values(f.of)), f.other) {
				if got, want := verbs(form), verbs(placed(s)); got != want {
					t.Errorf("%s.txt: %q takes %s, not %s as in English", code, form, got, want)
				}
			}
		}
	}
}

var verb = regexp.MustCompile(`%(\[\d\])?s`)

// verbs counts what a form of a phrase puts in.
func verbs(form string) string { return strconv.Itoa(len(verb.FindAllString(form, -1))) }
