package press

import (
	"bytes"
	"fmt"
	"html/template"
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"
)

type named string

// A row has a field of each type that the press prints.
type row struct {
	S    string
	N    named
	HTML template.HTML
	Attr template.HTMLAttr
	CSS  template.CSS
	JS   template.JS
	Str  template.JSStr
	URL  template.URL
	Set  template.Srcset
	B    bool
	I    int
	I8   int8
	U    uint64
	F    float64
	F32  float32
}

// rowOf fills the text of a row with s.
func rowOf(s string) row {
	return row{S: s, N: named(s), HTML: template.HTML(s), Attr: template.HTMLAttr(s), CSS: template.CSS(s), JS: template.JS(s), Str: template.JSStr(s),
		URL: template.URL(s), Set: template.Srcset(s), B: s != "", I: -len(s), I8: int8(len(s)), U: math.MaxUint64, F: 1e21 + float64(len(s)), F32: 0.1}
}

// contexts are where in a page a value may stand: %s is the action.
var contexts = []string{
	"<p>%s</p>", `<p title="%s">`, `<p title='a %s b'>`, `<p class="x %s">`, "<title>%s</title>", "<textarea>%s</textarea>", `<meta name="description" content="%s">`,
	`<a href="%s">`, `<a href='%s'>`, `<a href="../%s">`, `<a href="%s#x">`, `<a href="#%s">`, `<a href="x?y=%s&amp;z=1">`, `<img src="%s" alt="%[1]s">`,
	`<img srcset="%s">`, `<img srcset="a.jpg 1x, %s">`, `<svg><path d="%s"/></svg>`, `<script type="application/ld+json">%s</script>`, "<script>var a = %s;</script>",
}

// hostile are texts that mean something somewhere.
var hostile = []string{
	"", "plain words", `<b onclick="x">&amp; 'a' + "b"</b>`, "&lt;", "a\x00b\xff\xc3(\ufdd0\uffff\u2028", "javascript:alert(1)", "JavaScript:x", "MAILTO:a@b", "https://a.b/c d?e=f&g=h#i",
	"a/b:c", "100%", "%41%zz%2", "%c3%A9%Fz", "end%41", "(a) [b] {c} |d\\e^f`g~", "a.jpg 320w, b.jpg 1.5x", " a.jpg\t2x ,javascript:x 1x", "a,b, ,\f,", "über café €", "</script><!--", "1 < 2", "<unclosed", "+44", "\r\n\t\v",
}

// same holds the press to html/template: what is written, also where it breaks off,
// and the error. It reports why the press refuses.
func same(t testing.TB, tmpl *template.Template, data any) error {
	t.Helper()
	program, refused := Compile(tmpl, reflect.TypeOf(data))
	var want, got bytes.Buffer
	wantErr := fmt.Sprint(tmpl.Execute(&want, data))
	if refused == nil {
		done, err := program.Execute(&got, data)
		if done && (got.String() != want.String() || fmt.Sprint(err) != wantErr) {
			t.Errorf("%s\n%#v\nwant %q, %v\ngot  %q, %v", tmpl.Tree.Root, data, want.String(), wantErr, got.String(), err)
		}
		if !done && got.Len() > 0 {
			t.Errorf("%s: it wrote %q and gave up", tmpl.Tree.Root, got.String())
		}
	}
	page := New(tmpl)
	for i := range 3 {
		got.Reset()
		if err := fmt.Sprint(page.Execute(&got, data)); got.String() != want.String() || err != wantErr {
			t.Errorf("%s, time %d\nwant %q, %v\ngot  %q, %v", tmpl.Tree.Root, i, want.String(), wantErr, got.String(), err)
		}
	}
	return refused
}

func parsed(t testing.TB, text string) *template.Template {
	t.Helper()
	tmpl, err := template.New("page").Funcs(template.FuncMap{"shout": strings.ToUpper}).Parse(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return tmpl
}

// Every type in every context, with every hostile text.
func TestEscaping(t *testing.T) {
	for _, context := range contexts {
		for _, f := range reflect.VisibleFields(reflect.TypeFor[row]()) {
			tmpl := parsed(t, fmt.Sprintf(context, "{{."+f.Name+"}}"))
			for _, s := range hostile {
				if err := same(t, tmpl, rowOf(s)); err != nil {
					t.Fatalf("%s, %s: %v", context, f.Name, err)
				}
			}
		}
	}
	odd := []row{{F: math.Inf(1), F32: float32(math.Inf(-1))}, {F: math.NaN()}, {F: 1e6, F32: 1e-7, I: math.MinInt64}, {F: 123456789, F32: 16777216}, {F: -0.5}, {F: math.Copysign(0, -1)}}
	for _, x := range odd {
		same(t, parsed(t, `{{.F}} {{.F32}} {{.I}}<p title="{{.F}}"><a href="{{.F}}">`), x)
	}
}

type inner struct{ Deep, Over string }
type Base struct{ Root, Over string }
type tree struct {
	Name  string
	Below []*tree
}
type texter struct{ S string }

func (texter) Said() string     { return "said" }
func (*texter) Pointed() string { return "pointed" }
func (t texter) String() string { return "<" + t.S + ">" }

// A spoken text has a way of its own to be printed, a shadow a method that hides a field.
type spoken string

func (*spoken) String() string { return "spoken" }
func (s spoken) Error() string { return "said " + string(s) }

type shadow struct{ Base }

func (*shadow) Root() string { return "method" }

type page struct {
	Base
	*inner
	Name, None string
	Kind       named
	Yes, No    bool
	Three      int
	Byte       uint8
	Half       float64
	List       []string
	Rows       []row
	Pointers   []*row
	Pair       [2]int
	Empty      []row
	Row        *row
	Nil        *row
	Twice      **row
	NilTwice   **row
	Tree       *tree
	Long       *tree
	Map        map[string]string
	Any        any
	Anys       []any
	Texter     texter
	Spoken     spoken
	Shadow     *shadow
	Word       *string
	Func       func() string
	secret     string
}

func pages() []page {
	a, b, word := rowOf("a<"), rowOf(""), "word"
	pa := &a
	long := &tree{Name: "end"}
	for range maxDepth + 10 {
		long = &tree{Below: []*tree{long}}
	}
	full := page{Base: Base{"../", "base"}, inner: &inner{"deep", "inner"}, Name: "n&m", Kind: "session", Yes: true, Three: 3, Byte: 3, Half: 0.5,
		List: []string{"x", "", "<z>"}, Rows: []row{a, b}, Pointers: []*row{pa, &b}, Pair: [2]int{0, 7}, Row: pa, Twice: &pa, NilTwice: new(*row),
		Tree: &tree{"t", []*tree{{"u", nil}, {"v", []*tree{{"w", nil}}}}}, Long: long, Map: map[string]string{"k": "v"}, Any: 5, Anys: []any{"x", 1}, Texter: texter{"s"}, Spoken: "s", Shadow: &shadow{Base{Root: "field"}}, Word: &word,
		Func: func() string { return "called" }, secret: "s"}
	gap := full
	gap.inner, gap.Pointers, gap.Row = nil, []*row{nil}, nil
	return []page{{}, full, gap}
}

// What the press knows.
var known = []string{
	"text only", "", "<!-- gone --><p>{{/* gone */}} a {{- .Name -}} b", `{{"<lit>"}}{{5}}{{true}}{{0x1F}}{{'a'}}`,
	"{{.Name}}{{.Root}}{{.Base.Over}}{{.Deep}}{{.Kind}}", "{{$.Name}}", "{{.Row.S}}", "{{.Twice.S}}{{.Tree.Name}}",
	"{{if .Yes}}y{{else}}n{{end}}{{if .No}}y{{else}}n{{end}}", "{{if .Name}}1{{else if .Yes}}2{{else}}3{{end}}",
	"{{if .Three}}i{{end}}{{if .Byte}}u{{end}}{{if .Half}}f{{end}}{{if .List}}l{{end}}{{if .Pair}}a{{end}}{{if .Row}}p{{end}}{{if .Nil}}z{{end}}{{if .Base}}s{{end}}{{if .Map}}m{{end}}{{if .NilTwice}}t{{end}}",
	"{{with .Name}}{{.}}{{$.Root}}{{else}}none{{.Kind}}{{end}}", "{{with .Row}}{{.S}}{{else with .Kind}}{{.}}{{end}}", "{{with $r := .Row}}{{$r.S}}{{.I}}{{else}}{{if $r}}{{end}}{{end}}",
	"{{if $n := .Name}}{{$n}}{{else}}no {{$n}}{{end}}",
	"{{range .List}}[{{.}}]{{end}}", "{{range .List}}{{.}}{{$.Name}}{{else}}none {{.Kind}}{{end}}", "{{range $i, $x := .List}}{{if $i}}, {{end}}{{$i}}{{$x}}{{.}}{{end}}",
	"{{range $x := .Rows}}{{$x.S}}{{.I}}{{end}}", "{{range .Empty}}{{.S}}{{else}}empty{{end}}", "{{range .Pair}}{{.}}{{end}}", "{{range .Pointers}}{{.S}}{{end}}", "{{range .Pointers}}{{with .}}{{.S}}{{else}}nil{{end}}{{end}}",
	"{{range $i, $x := .Rows}}{{range $j, $y := $.Rows}}{{$i}}{{$j}}{{$x.S}}{{$y.S}}{{end}}{{end}}", "{{range $i, $x := .List}}{{end}}{{range $y := .List}}{{$y}}{{else}}{{.Name}}{{end}}",
	"{{$a := .Name}}{{$b := .Row}}{{$a}}{{with $b}}{{.S}}{{end}}{{if .Yes}}{{$a := .Kind}}{{$a}}{{end}}{{$a}}", "{{$a := .Name}}{{range .List}}{{$a}}{{$a := .}}{{$a}}{{end}}",
	`{{define "x"}}<i>{{.}}</i>{{end}}{{template "x" .Name}}{{range .List}}{{template "x" .}}{{end}}{{template "x" .Three}}{{template "x" "lit"}}`,
	`{{define "x"}}fixed{{end}}{{template "x"}}`, `{{define "x"}}{{$y := .}}{{$.S}}{{$y.I}}{{end}}{{$y := .Name}}{{range .Rows}}{{template "x" .}}{{end}}{{$y}}`,
	`{{define "x"}}{{.S}}{{end}}{{template "x" $r := .Row}}{{$r.I}}`,
	`{{define "t"}}<li>{{.Name}}{{with .Below}}<ul>{{range .}}{{template "t" .}}{{end}}</ul>{{end}}</li>{{end}}{{with .Tree}}{{template "t" .}}{{end}}`,
	`{{define "t"}}{{.Name}}{{range .Below}}{{template "t" .}}{{end}}{{end}}{{with .Long}}{{template "t" .}}{{end}}`,
	"{{if not .Name}}a{{end}}{{if not .Row}}b{{end}}{{not .Yes}}{{if not (eq .Three 3)}}c{{end}}", "{{if and .Yes .Row .Row.S}}a{{else}}b{{end}}", "{{if or .No .Name .Row}}a{{else}}b{{end}}",
	"{{if or .Row (and .Yes (not .No))}}a{{end}}", `{{if eq .Kind "session"}}a{{end}}{{if eq .Name "x" "n&m"}}b{{end}}{{eq .Three 3}}{{eq .Yes true}}{{eq .Byte .Byte}}{{eq .Half .Half}}{{eq .Name .Kind}}`,
	"{{if eq .Three 3 .Row.I}}a{{end}}", "{{len .List}}{{len .Name}}{{len .Pair}}{{len .Map}}{{if eq (len .Rows) 2}}two{{end}}{{(len .List)}}", "{{with len .List}}{{.}}{{end}}",
}

// What the press leaves to html/template, so that it works for all that.
var unknown = []string{
	"{{.Map.k}}", "{{.Any}}", "{{with .Any}}x{{end}}", "{{if .Any}}x{{end}}", "{{range .Map}}{{.}}{{end}}", "{{range $i, $x := .List}}a{{else}}{{$x}}{{end}}", "{{range .Three}}{{.}}{{end}}",
	"{{.Texter}}", "{{.Spoken}}", "{{.Shadow.Root}}", "{{range .Anys}}{{.}}{{end}}", "{{$a := .Any}}{{$a}}", "{{eq .Any .Any}}", "{{not .Any}}", "{{len .Any}}", "{{.Texter.Said}}", "{{.Texter.Pointed}}", "{{.Word}}", "{{.Row}}", "{{.Base}}", "{{.List}}", "{{call .Func}}", "{{.Func}}", "{{.secret}}", "{{.NoSuch}}", "{{.Name.NoSuch}}", "{{.Over}}",
	"{{shout .Name}}", "{{.Name | shout}}", "{{.List | len}}", `{{printf "%d" .Three}}`, "{{index .List 0}}", "{{.Name | html}}", "{{html .Name}}", "{{.Name | urlquery}}", "{{or .Name .Kind}}", "{{and .Yes .Name}}", "{{with or .Name .Kind}}{{.}}{{end}}", "{{if .Yes | not}}a{{end}}",
	"{{eq .Three .Byte}}", "{{eq .Three .Name}}", "{{eq .List .List}}", "{{eq .Row .Row}}", "{{ne .Name .Kind}}", "{{len .Three}}", "{{not}}", "{{1.5}}", "{{1e7}}", "{{nil}}", "{{(index .Rows 0).S}}", "{{.Func}}",
	"{{$a := .Name}}{{$a = .Root}}{{$a}}", "{{if .Yes}}{{$a := .Name}}{{else}}{{$a}}{{end}}", "{{range .List}}{{break}}{{end}}", "{{range .List}}{{if .}}{{continue}}{{end}}{{.}}{{end}}",
	`{{define "x"}}{{.S}}{{end}}{{template "x"}}`, `{{define "x"}}{{.}}{{end}}{{template "x"}}`, `{{template "missing" .}}`, `{{define "x"}}{{.}}{{end}}<p class="{{template "x" .Name}}">{{template "x" .Name}}`,
	"<p title={{.Name}}>", "<p {{.Name}}>", "<p style='width: {{.Three}}px'>", "<style>p { color: {{.Name}} }</style>", `<script>"{{.Name}}"</script>`, "<!-- {{.Name}} -->x", "<p onclick='f({{.Name}})'>", "<p title='{{.Row}}'>",
	"<a href='{{.Name}}", "{{if .Yes}}<a href='{{end}}",
}

func TestConstructs(t *testing.T) {
	for _, text := range known {
		for _, data := range pages() {
			if err := same(t, parsed(t, text), data); err != nil {
				t.Errorf("%s: refused: %v", text, err)
			}
			same(t, parsed(t, text), &data)
		}
	}
	for _, text := range unknown {
		for _, data := range pages() {
			if err := same(t, parsed(t, text), data); err == nil {
				t.Errorf("%s: not refused", text)
			}
			same(t, parsed(t, text), &data)
		}
	}
	for _, data := range []any{nil, "a<b", 5, []string{"x"}, map[string]int{"a": 1}, (*page)(nil), (*row)(nil), reflect.ValueOf("v"), texter{"t"}} {
		same(t, parsed(t, "{{if .}}{{.}}{{end}}"), data)
		same(t, parsed(t, "<p>"), data)
		same(t, parsed(t, "{{.S}}"), data)
	}
	same(t, parsed(t, "{{if .}}true{{end}}"), reflect.ValueOf(""))
}

// A value that html/template has put no escaper behind is never printed.
func TestNothingIsPrintedUnescaped(t *testing.T) {
	defer func() {
		if _, ok := recover().(refusal); !ok {
			t.Error("not refused")
		}
	}()
	printerOf(plain, nil)
}

// Most of what is known must be printed to the end, for otherwise html/template
// would have been compared with itself.
func TestKnownIsDone(t *testing.T) {
	for _, text := range known {
		for i, data := range pages() {
			var want bytes.Buffer
			tmpl := parsed(t, text)
			failed := tmpl.Execute(&want, data) != nil
			program, err := Compile(tmpl, reflect.TypeOf(data))
			if err != nil {
				t.Fatal(text, err)
			}
			if done, _ := program.Execute(&want, data); done == failed && !strings.Contains(text, ".Long") {
				t.Errorf("%s, page %d: done %v, but html/template fails: %v", text, i, done, failed)
			}
		}
	}
}

// Templates that call themselves without end are stopped as html/template stops them.
func TestEndlessRecursion(t *testing.T) {
	tmpl := parsed(t, `{{define "t"}}{{template "t" .}}{{end}}{{template "t" .Name}}`)
	if err := same(t, tmpl, page{}); err != nil {
		t.Error(err)
	}
	if err := New(tmpl).Execute(new(bytes.Buffer), page{}); err == nil {
		t.Error("no error")
	}
}

// One page may be printed by many at a time, from the first on.
func TestPrintsAtTheSameTime(t *testing.T) {
	p := New(parsed(t, `{{define "x"}}<i>{{.}}</i>{{end}}{{range $i, $x := .List}}{{template "x" $x}}{{$i}}{{end}}<a href="{{.Name}}">`))
	var wg sync.WaitGroup
	for i := range 64 {
		wg.Go(func() {
			data := page{Name: fmt.Sprint("n", i), List: []string{fmt.Sprint(i), "<"}}
			var b strings.Builder
			if err := p.Execute(&b, data); err != nil {
				t.Error(err)
			}
			if want := fmt.Sprintf(`<i>%d</i>0<i>&lt;</i>1<a href="n%d">`, i, i); b.String() != want {
				t.Errorf("got %s, want %s", b.String(), want)
			}
		})
	}
	wg.Wait()
}

// A page that has been printed before costs next to nothing in memory.
func TestAllocations(t *testing.T) {
	tmpl := parsed(t, `{{range .Rows}}<p title="{{.S}}"><a href="{{.S}}">{{.N}}{{.HTML}}{{.I}}{{if eq .S "x"}}{{end}}{{end}}`)
	p, err := Compile(tmpl, reflect.TypeFor[*page]())
	if err != nil {
		t.Fatal(err)
	}
	data := &page{Rows: make([]row, 500)}
	for i := range data.Rows {
		data.Rows[i] = rowOf("words")
	}
	var b bytes.Buffer
	if n := testing.AllocsPerRun(20, func() { b.Reset(); _, _ = p.Execute(&b, data) }); n > 50 { // the race detector empties pools
		t.Errorf("%v allocations for 3000 fields", n)
	}
}

func FuzzEscaping(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	type pair struct {
		tmpl    *template.Template
		program *Program
	}
	var pairs []pair
	for _, context := range contexts {
		for _, x := range reflect.VisibleFields(reflect.TypeFor[row]()) {
			tmpl := parsed(f, fmt.Sprintf(context, "{{."+x.Name+"}}"))
			p, err := Compile(tmpl, reflect.TypeFor[row]())
			if err != nil {
				f.Fatal(err)
			}
			pairs = append(pairs, pair{tmpl, p})
		}
	}
	f.Fuzz(func(t *testing.T, s string) {
		data := rowOf(s)
		for _, p := range pairs {
			var want, got bytes.Buffer
			if err := p.tmpl.Execute(&want, data); err != nil {
				t.Fatal(err)
			}
			if done, err := p.program.Execute(&got, data); err != nil || done && got.String() != want.String() {
				t.Errorf("%s with %q: %v\nwant %q\ngot  %q", p.tmpl.Tree.Root, s, err, want.String(), got.String())
			}
		}
	})
}
