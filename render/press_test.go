package render

import (
	"bytes"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/themes"
	"guidecoat/themes/press"
)

// examplePages are the pages of the example's sites in that theme, each with its data.
func examplePages(t testing.TB, th *themes.Theme) (pages []task, data []any) {
	t.Helper()
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	o := Options{Theme: th, Version: "test", BaseURL: "https://example.org/halden", Read: func(p string) ([]byte, error) { return fs.ReadFile(example(), p) }}
	for _, s := range b.Sessions {
		o.Notes = append(o.Notes, RawNote{File: s.Note.File})
	}
	for _, asOf := range []measure.Date{0, measure.NewDate(2026, 6, 1)} {
		state := state.At(b, asOf, today)
		for _, v := range []*view.View{view.Of(state, view.ForPublic), view.Of(state, view.ForWorkshop), view.BuyersPack(state, state.ToSell(nil), state.ToDrive(nil))} {
			s, err := prepare(v, o)
			if err != nil {
				t.Fatal(err)
			}
			for _, task := range s.todo {
				d, err := task.data()
				if err != nil {
					t.Fatal(err)
				}
				pages, data = append(pages, task), append(data, d)
			}
		}
	}
	return pages, data
}

// No page of ours leaves the press for html/template, neither as a whole nor on the
// way, and the two make the same bytes.
func TestPressPrintsEveryPage(t *testing.T) {
	for _, name := range themes.Names() {
		th, err := themes.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		pages, data := examplePages(t, th)
		made := map[reflect.Type]*press.Program{}
		for i, page := range pages {
			kind := reflect.TypeOf(data[i])
			p := made[kind]
			if p == nil {
				if p, err = press.Compile(page.tmpl.Template, kind); err != nil {
					t.Fatalf("%s, %s: %s: %v", name, page.path, kind, err)
				}
				made[kind] = p
			}
			var got, want bytes.Buffer
			if done, err := p.Execute(&got, data[i]); !done || err != nil {
				t.Errorf("%s, %s: done %v, error %v", name, page.path, done, err)
			}
			if err := page.tmpl.Template.Execute(&want, data[i]); err != nil {
				t.Fatal(err)
			}
			if d := firstDifference(want.String(), got.String()); d != "" {
				t.Errorf("%s, %s: %s", name, page.path, d)
			}
		}
		if len(made) != len(th.Pages())-1 {
			t.Errorf("%s: the example has %d sorts of page, the theme %v", name, len(made), th.Pages())
		}
		if _, err := press.Compile(th.Page(garagePage).Template, reflect.TypeFor[garageSheet]()); err != nil {
			t.Errorf("%s, the garage: %v", name, err)
		}
	}
}

// A builder's template may use what the press does not know. It is left to
// html/template, also the second time.
func TestPressLeavesWhatItDoesNotKnow(t *testing.T) {
	own := fstest.MapFS{"templates/session.html": {Data: []byte(`{{define "main"}}<h1>{{printf "%.3s" .Heading}}</h1><p title={{.Stage}}>{{index .Plates 0 | printf "%T"}}</p>{{end}}`)}}
	th, err := themes.Load(themes.Default, themes.Layer{Name: "own", FS: own})
	if err != nil {
		t.Fatal(err)
	}
	page, data := th.Page("session"), sessionPage{Frame: Frame{Heading: "Brakes"}, Stage: "a b", Plates: []Plate{{}}}
	if _, err := press.Compile(page.Template, reflect.TypeOf(data)); err == nil || err.Error() != "function printf" {
		t.Errorf("refused because of %v", err)
	}
	for range 3 {
		var b bytes.Buffer
		if err := page.Execute(&b, data); err != nil || !strings.Contains(b.String(), `<h1>Bra</h1><p title=a&#32;b>render.Plate</p>`) {
			t.Errorf("%v\n%s", err, b.String())
		}
	}
	data.Plates = nil
	for range 3 {
		if err := page.Execute(new(bytes.Buffer), data); len(themes.Faults(err)) != 1 {
			t.Errorf("the mistake is told as %v", err)
		}
	}
}

// BenchmarkPress prints each sort of page of the example both ways; x is how many
// times longer html/template takes.
func BenchmarkPress(b *testing.B) {
	pages, data := examplePages(b, theme(b))
	seen := map[string]bool{}
	for i, page := range pages {
		kind := page.tmpl.Lookup("main").Tree.ParseName
		if seen[kind] {
			continue
		}
		seen[kind] = true
		p, err := press.Compile(page.tmpl.Template, reflect.TypeOf(data[i]))
		if err != nil {
			b.Fatal(err)
		}
		var out bytes.Buffer
		ours := func() {
			out.Reset()
			if done, err := p.Execute(&out, data[i]); !done || err != nil {
				b.Fatal(done, err)
			}
		}
		theirs := func() {
			out.Reset()
			if err := page.tmpl.Template.Execute(&out, data[i]); err != nil {
				b.Fatal(err)
			}
		}
		b.Run(kind, func(b *testing.B) {
			var took [2]time.Duration
			for b.Loop() {
				for k, print := range []func(){ours, theirs} {
					start := time.Now()
					print()
					took[k] += time.Since(start)
				}
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(float64(took[0].Nanoseconds())/float64(b.N), "ns-press")
			b.ReportMetric(float64(took[1].Nanoseconds())/float64(b.N), "ns-html/template")
			b.ReportMetric(float64(took[1])/float64(took[0]), "x")
			b.ReportMetric(testing.AllocsPerRun(10, ours), "allocs-press")
		})
	}
}
