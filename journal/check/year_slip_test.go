package check

import (
	"strings"
	"testing"
)

// A session is doubted where a year later it would stand just behind another, and
// where it is alone.
func TestYearSlip(t *testing.T) {
	for _, c := range []struct{ names, want string }{
		{"2026-01-03 2026-01-05 2025-01-09", `2025-01-09.md:1:1: warning, year-slip: "2025-01-09" is far from all other sessions, but a year later it would follow "2026-01-05"`},
		{"2026-01-03 2026-02-20 2025-01-09", `would follow "2026-01-03"`},
		{"2026-01-03 2026-01-05 2025-02-05", `would follow "2026-01-05"`}, // eleven months before
		{"2026-01-03 2026-01-05 2025-02-06", ""},
		{"2026-01-03 2025-01-09", ""},                       // too few to tell
		{"2026-01-03 2026-01-05 2025-03-09", ""},            // a year later it would follow nothing closely
		{"2026-03-03 2026-03-05 2025-01-09", ""},            // bought a year before
		{"2026-01-03 2026-01-05 2025-01-09 2025-01-12", ""}, // not alone
		{"2026-01-03 2025-08-05 2025-01-09 2025-06-01", ""},
		{"2025-12-03 2025-12-05 2026-01-09", ""},
	} {
		files := ""
		for _, name := range strings.Fields(c.names) {
			files += "-- " + name + ".md --\n---\nstage: body\n---\n"
		}
		wantOf(t, "year-slip", files, c.want)
	}
}
