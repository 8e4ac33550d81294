package check

import "testing"

// Hours with two decimals are doubted where these may be minutes.
func TestDecimalMinutes(t *testing.T) {
	for _, c := range []struct{ note, want string }{
		{"---\nstage: body\ntime: 1.30h filler\n---\n", `"1.30h" is 1h 18m`},
		{"---\nstage: body\ntime: 1.30h filler\n---\n", "Write 1h30 if these are minutes, or 1h 18m if it is right."},
		{"---\nstage: body\ntime:\n  - 2.45 hours; hands 2\n---\n", `"2.45 hours" is 2h 27m`},
		{"- [ ] job door-leak: a new seal; takes 0.10h\n", `"0.10h" is 6m`},
		{"---\nstage: body\ntime: 1.3h filler\n---\n", ""},
		{"---\nstage: body\ntime: 1.25h filler\n---\n", ""},
		{"---\nstage: body\ntime: 1.50h filler\n---\n", ""},
		{"---\nstage: body\ntime: 1.00h filler\n---\n", ""},
		{"---\nstage: body\ntime: 0.33h filler\n---\n", ""},
		{"---\nstage: body\ntime: 1.60h filler\n---\n", ""},
		{"---\nstage: body\ntime: 2.305h filler\n---\n", ""},
		{"---\nstage: body\ntime: 12.30 min filler\n---\n", ""},
		{"---\nstage: body\ntime: 1.30h filler; stage none\n---\n", ""}, // left out
	} {
		wantOf(t, "decimal-minutes", c.note, c.want)
	}
}
