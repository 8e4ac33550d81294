package journal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Imports go down only. Each row names what a package of the project may import
// besides the standard library; a row for every package below cmd.
var mayImport = map[string]string{
	"journal/source":         "",
	"journal/marker":         "",
	"journal/near":           "",
	"journal/parallel":       "",
	"journal/pick":           "",
	"journal/picture":        "journal/pick golang.org/x/image heic",
	"journal/measure/number": "journal/pick journal/source decimal",
	"journal/measure":        "journal/pick journal/source journal/near journal/measure/number decimal",
	"journal/money":          "journal/pick journal/source journal/measure/number decimal",
	"journal/speech":         "journal/pick journal/money decimal",
	"journal/note":           "journal/pick journal/speech journal/source journal/near journal/measure journal/measure/number journal/money decimal goldmark goldmark-meta yaml.v2",
	"journal/fact":           "journal/pick journal/speech journal/measure journal/money journal/note decimal",
	"journal":                "journal/pick journal/speech journal/fact journal/source journal/near journal/parallel journal/marker journal/measure journal/money journal/note journal/picture decimal goldmark golang.org/x/text",
	"journal/state":          "journal/pick journal/speech journal/fact journal/source journal/measure journal/money journal/note journal decimal",
	"journal/view":           "journal/pick journal/speech journal/fact journal/source journal/measure journal/money journal/note journal journal/state decimal goldmark",
	"journal/aloud":          "journal/pick journal/speech journal/fact journal/source journal/measure journal/note journal journal/state decimal",
	"journal/trial":          "journal/pick journal/source journal/measure journal txtar decimal",
	"journal/problem":        "journal/pick journal/source uniseg",
	"journal/check":          "journal/pick journal/speech journal/fact journal/view journal/source journal/near journal/parallel journal/measure journal/money journal/note journal/picture journal journal/state journal/problem decimal goldmark golang.org/x/text",
	"journal/export":         "journal/pick journal/speech journal/fact journal/view journal/aloud journal/measure journal/money journal/note journal/problem decimal golang-ical",
	"themes":                 "journal/pick journal/near",
	"render/photo":           "journal/pick journal/picture",
	"render/place":           "journal/pick journal/marker journal/parallel golang.org/x/sys golang.org/x/text",
	"render/tongue":          "journal/pick journal/speech journal/measure journal/money decimal golang.org/x/text",
	"render/markdown":        "journal/pick render/tongue journal/fact journal/view journal/source journal/measure journal/money journal/note journal/problem goldmark chroma",
	"render/markup":          "journal/pick render/markdown",
	"render":                 "journal/pick journal/speech render/tongue journal/fact journal/view journal/parallel journal/picture journal/source journal/measure journal/money journal/note journal/problem journal/export render/markdown render/markup render/photo render/place themes decimal goldmark golang.org/x/image golang.org/x/text",
}

// outside shortens the paths of other modules to the names the table uses.
var outside = map[string]string{
	"github.com/shopspring/decimal": "decimal", "github.com/yuin/goldmark": "goldmark", "github.com/yuin/goldmark-meta": "goldmark-meta", "gopkg.in/yaml.v2": "yaml.v2",
	"github.com/rivo/uniseg": "uniseg", "github.com/alecthomas/chroma/v2": "chroma", "golang.org/x/sys": "golang.org/x/sys", "golang.org/x/image": "golang.org/x/image", "golang.org/x/text": "golang.org/x/text",
	"github.com/gen2brain/heic": "heic", "github.com/arran4/golang-ical": "golang-ical", "github.com/rogpeppe/go-internal": "txtar",
}

// sources parses every Go file of the project that is no test and not in cmd.
func sources(t *testing.T, each func(dir string, f *ast.File, fset *token.FileSet)) {
	t.Helper()
	const root = ".."
	found := map[string]bool{}
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, p)
		rel = filepath.ToSlash(rel)
		if d.IsDir() {
			if rel == "cmd" || d.Name() == "testdata" || rel != "." && strings.HasPrefix(d.Name(), ".") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(rel, ".go") || strings.HasSuffix(rel, "_test.go") {
			return nil
		}
		data, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, rel, data, 0)
		if err != nil {
			return err
		}
		found[path.Dir(rel)] = true
		each(path.Dir(rel), f, fset)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if !found["journal"] || !found["journal/note"] {
		t.Fatalf("the project's files were not found: %v", found)
	}
}

func imports(f *ast.File) []string {
	var list []string
	for _, spec := range f.Imports {
		p, _ := strconv.Unquote(spec.Path.Value)
		list = append(list, p)
	}
	return list
}

func TestImportsGoDown(t *testing.T) {
	sources(t, func(dir string, f *ast.File, fset *token.FileSet) {
		row, ok := mayImport[dir]
		if !ok {
			t.Errorf("%s: there is no row for this package", dir)
			return
		}
		allowed := strings.Fields(row)
		for _, p := range imports(f) {
			name, own := strings.CutPrefix(p, "guidecoat/")
			first, _, _ := strings.Cut(p, "/")
			if !own && !strings.Contains(first, ".") {
				continue // the standard library; see the next test
			}
			if !own {
				for module, short := range outside {
					if p == module || strings.HasPrefix(p, module+"/") {
						name = short
					}
				}
			}
			if !slices.Contains(allowed, name) {
				t.Errorf("%s imports %s", fset.Position(f.Pos()).Filename, p)
			}
		}
	})
	// The table itself goes down: no package is above one that it imports.
	for dir, row := range mayImport {
		for _, p := range strings.Fields(row) {
			if slices.Contains(strings.Fields(mayImport[p]), dir) {
				t.Errorf("%s and %s may import each other", dir, p)
			}
		}
	}
}

// Below cmd nothing reads the clock, the environment or the network; only what
// puts files in place knows the operating system.
func TestNothingBelowCmdTouchesTheWorld(t *testing.T) {
	banned := map[string][]string{
		"time": {"Now", "Since", "Until", "Sleep", "After", "Tick", "NewTimer", "NewTicker", "Local"},
	}
	sources(t, func(dir string, f *ast.File, fset *token.FileSet) {
		names := map[string]string{}
		for _, spec := range f.Imports {
			p, _ := strconv.Unquote(spec.Path.Value)
			switch first, _, _ := strings.Cut(p, "/"); {
			case (p == "os" || p == "crypto/rand") && dir == "render/place":
			case p == "os", p == "crypto/rand", p == "math/rand", p == "math/rand/v2", first == "net" && p != "net/url", p == "syscall", p == "os/exec", p == "unsafe":
				t.Errorf("%s imports %s", fset.Position(f.Pos()).Filename, p)
			}
			name := path.Base(p)
			if spec.Name != nil {
				name = spec.Name.Name
			}
			names[name] = p
		}
		ast.Inspect(f, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if x, ok := sel.X.(*ast.Ident); ok && slices.Contains(banned[names[x.Name]], sel.Sel.Name) {
				t.Errorf("%s uses %s.%s", fset.Position(sel.Pos()), x.Name, sel.Sel.Name)
			}
			if x, ok := sel.X.(*ast.Ident); ok && names[x.Name] == "os" && slices.Contains([]string{"Getenv", "LookupEnv", "Environ", "Stdout", "Stderr", "Stdin", "Exit", "Getwd", "Args"}, sel.Sel.Name) {
				t.Errorf("%s uses %s.%s", fset.Position(sel.Pos()), x.Name, sel.Sel.Name)
			}
			return true
		})
	})
}

// A room that grows is split at a seam: no type has more than forty methods, no file
// more than 350 lines.
func TestRoomsStaySmall(t *testing.T) {
	methods := map[string]int{}
	sources(t, func(dir string, f *ast.File, fset *token.FileSet) {
		if n := fset.File(f.Pos()).LineCount(); n > 351 {
			t.Errorf("%s has %d lines", fset.Position(f.Pos()).Filename, n-1)
		}
		for _, d := range f.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Recv == nil {
				continue
			}
			of := fn.Recv.List[0].Type
			if star, ok := of.(*ast.StarExpr); ok {
				of = star.X
			}
			if id, ok := of.(*ast.Ident); ok {
				if methods[dir+"."+id.Name]++; methods[dir+"."+id.Name] == 41 {
					t.Errorf("%s.%s has more than forty methods", dir, id.Name)
				}
			}
		}
	})
}
