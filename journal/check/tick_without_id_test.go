package check

import "testing"

func TestTickWithoutID(t *testing.T) {
	const opens = "- [ ] temporary bonnet-strap: tied down\n"
	for _, c := range []struct {
		items string
		want  int
	}{
		{"- [x] bonnet-strap latch fitted\n", 1},
		{"- [x] bonnet-strap, latch fitted\n", 1},
		{"- [x] the bonnet-strap: ok\n", 1},
		{"- [x] bonnet strap: latch fitted\n", 1},
		{"- [x] Bonnet–strap: latch fitted\n", 1},
		{"- [x] bonnet-strap: latch fitted\n", 0},
		{"- [x] bonnet-strap latch fitted\n- [x] bonnet-strap: done\n", 0}, // it is closed after all
		{"- [ ] bonnet-strap latch to fit\n", 1}, {"- [ ] the bonnet-strap latch to fit\n", 0},
		{"- [x] bonnet: latch fitted\n", 1}, {"- [x] strap: off\n", 0},
		{"- [x] bonnet polished\n", 0},
		{"- [x] strap off the bonnet\n", 0},
	} {
		got := 0
		for _, p := range proofread(t, folder(opens+c.items)) {
			if p.Check == "tick-without-id" {
				got++
			}
		}
		if got != c.want {
			t.Errorf("%q: %d, want %d", c.items, got, c.want)
		}
	}
}
