package check

import (
	"slices"
	"strings"
	"testing"
)

func TestCommaClause(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"---\nstage: body\ncost: 40.00 fuel to Bram, private\n---\n", "private"},
		{"---\nstage: body\ntime: 1h in the yard – Private.\n---\n", "private"},
		{"---\nstage: body\ntime: 1h in the yard (private)\n---\n", "private"},
		{"---\nstage: body\ntime: 3h40 beam, hands 2\n---\n", "hands 2"},
		{"- [ ] job door-leak: look at the seal, private\n", "private"},
		{"---\nstage: body\ncost: 40.00 fuel, hands 2\n---\n", ""}, // no clause of a cost
		{"---\nstage: body\ncost: 40.00 fuel; from Tidewell, private\n---\n", "private"},
		{"---\nstage: body\ncost: 40.00 fuel; receipt 20411 (private); from Tidewell\n---\n", "private"},
		{"---\nstage: body\ncost: 40.00 fuel; from Tidewell, private; private\n---\n", ""},
		{"---\nstage: body\ntime: 1h along a private road\n---\n", ""},
		{"---\nstage: body\ntime: 1h in the yard, private; private\n---\n", ""},
		{"---\nstage: body\ntime: 1h, private road cleared\n---\n", ""},
		{"---\nstage: body\ntime: 1h changing hands 2\n---\n", ""},
	} {
		var want []string
		if c.want != "" {
			want = []string{c.want}
		}
		var got []string
		for _, p := range proofread(t, folder(c.line)) {
			if p.Check == "comma-clause" {
				got = append(got, strings.ToLower(p.Span.Text()))
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", c.line, got, want)
		}
	}
}
