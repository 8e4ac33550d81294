package render

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// gaugeOf is the gauge of readings of one name, by what its words say and where.
func gaugeOf(t *testing.T, lines ...string) string {
	t.Helper()
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n")}}
	for i, l := range lines {
		fsys[fmt.Sprintf("2026-01-%02d.md", i+1)] = &fstest.MapFile{Data: []byte("---\nreadings:\n  gap: " + l + "\n---\n")}
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	g := english.gauge(view.Of(state.At(b, 0, today), view.ForWorkshop).Series()[0])
	if g == nil {
		return "none"
	}
	var out []string
	for _, w := range g.Words {
		out = append(out, w.Class+" "+w.Words+" at "+w.At+" "+w.Anchor)
	}
	return strings.Join(out, "; ")
}

// Every scale says the reading, the limits and where it begins and ends. The ends
// are round figures around the reading and the limits.
func TestGaugeWords(t *testing.T) {
	for _, c := range []struct {
		lines []string
		want  string
	}{
		{[]string{"8.7 mm; min 8.0 mm"}, "newest 8.7 mm at 75 middle; limit min 8.0 mm at 16.67 start; end 7.8 mm at 0 start; end 9.0 mm at 100 end"},
		{[]string{"3 mm; max 5 mm"}, "newest 3 mm at 42.86 middle; limit max 5 mm at 71.43 end; end 0 mm at 0 start; end 7 mm at 100 end"},
		{[]string{"7 mm; max 5 mm"}, "newest 7 mm at 70 middle; limit max 5 mm at 50 end; end 0 mm at 0 start; end 10 mm at 100 end"},
		{[]string{"20.4 mm; within 20..21"}, "newest 20.4 mm at 44.44 middle; limit 20 mm at 22.22 start; limit 21 mm at 77.78 end; end 19.6 mm at 0 start; end 21.4 mm at 100 end"},
		{[]string{"9 V", "12.6 V; within 12.5..13"}, "newest 12.6 V at 76.67 middle; limit 12.5 V to 13 V at 79.17 middle; end 8 V at 0 start"},
		{[]string{"8.7 mm"}, "none"},
	} {
		if got := strings.ReplaceAll(gaugeOf(t, c.lines...), nbsp, " "); got != c.want {
			t.Errorf("%v:\n%s\nwant\n%s", c.lines, got, c.want)
		}
	}
}

// However often something was measured, the gauge marks the newest only.
func TestGaugeMarks(t *testing.T) {
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: x\ncurrency: GBP\n---\n")}}
	for i := range 3 * gaugeMarks {
		fsys[fmt.Sprintf("2026-01-01-%04d.md", i)] = &fstest.MapFile{Data: fmt.Appendf(nil, "---\nreadings:\n  gap: %d mm; min 1 mm\n---\n", i+2)}
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	g := english.gauge(view.Of(state.At(b, 0, today), view.ForWorkshop).Series()[0])
	if n := len(g.Marks); n != gaugeMarks || !g.Marks[n-1].Newest {
		t.Errorf("%d marks, want %d", n, gaugeMarks)
	}
}
