package check

import (
	"strings"
	"testing"
)

// What somebody new wrote in a first evening, and nothing was said of.
func TestFirstEvening(t *testing.T) {
	note := func(front, body string) string { return "---\nstage: body\n" + front + "---\n" + body }
	sold := func(item, price string) string {
		return note("", item+"\n") + "-- 2026-05-01.md --\n---\nsold: " + price + "\n---\n"
	}
	oneMessage(t, []root{
		{"a line twice", note("cost:\n  - 85.00 radiator; as parts; from Mossgill\n  - 85.00 radiator; from Mossgill; as parts\n", ""), "same-line"},
		{"thrice", note("cost:\n  - 85.00 radiator\n  - 85.00  Radiator\n  - 85.00 radiator\n", ""), "same-line same-line"},
		{"paid twice", note("cost:\n  - 2.50 parking\n  - 2.50 parking; sure\n", ""), ""},
		{"other words", note("cost:\n  - 2.50 parking\n  - 2.50 coffee\n", ""), ""},
		{"another part", note("cost:\n  - 2.50 bush; for bush-left\n  - 2.50 bush; for bush-right\nparts:\n  bush-left: needed bush\n  bush-right: needed bush\n", ""), ""},
		{"money back and money out", note("cost: 2.50 bush\ncredit: 2.50 bush\n", ""), ""},
		{"sold with a danger", sold("- [ ] brake-pipe: rusty; dangerous", "500.00"), "unsafe-when-sold"},
		{"and the buyer was told", sold("- [ ] brake-pipe: rusty; dangerous", "500.00; sure"), ""},
		{"in plain words", sold("- [ ] (dangerous) brake pipe", "500.00"), "unsafe-when-sold"},
		{"found after the sale", note("sold: 500.00\n", "") + "-- 2026-05-01.md --\n- [ ] brake-pipe: rusty; dangerous\n", ""},
		{"mended", sold("- [ ] brake-pipe: rusty; dangerous\n- [x] brake-pipe: new pipe", "500.00"), ""},
		{"something major", sold("- [ ] wing-left: bent; major", "500.00"), ""},
		{"a check is due", note("parts:\n  caliper: fitted caliper; new; free; system steering\nsold: 500.00\n", ""), "unsafe-when-sold"},
		{"temporary in words", note("", "- [ ] undertray-tie: temporary cable tie\n"), "temporary-in-words"},
		{"a bodge in words", note("", "- [ ] undertray-tie: bodged with a tie\n"), "temporary-in-words"},
		{"a remark", note("", "- [ ] job undertray-tie: clips\n- [ ] undertray-tie: temporary tie holds\n"), ""},
		{"temperature", note("", "- [ ] oil-lamp: temp sensor reads high\n"), ""},
		{"underscores", note("", "- [ ] undertray_tie: cable tie\n"), "bad-id"},
		{"underscores behind a kind", note("", "- [ ] temporary undertray_tie: cable tie\n"), "bad-id"},
		{"emphasis", note("", "- [ ] _now_: cable tie\n"), ""},
		{"a severity before a comma", note("", "- [ ] door-scratch: minor, below the handle\n"), "missing-semicolon"},
	})
}

func TestCorrectedOnce(t *testing.T) {
	for _, c := range []struct{ item, want string }{
		{"temporary undertray: cable tie instead", "temporary undertray-cable: cable tie instead"},
		{"temporary bonnet strap: tied down", "temporary bonnet-strap: tied down"},
		{"temporary undertray-tie2 cable tie", "temporary undertray-tie2: cable tie"},
		{"temporary: hung on wire", "temporary hung-wire: hung on wire"},
		{"temporary wire on the exhaust", "temporary wire-exhaust: wire on the exhaust"},
		{"undertray-tie: temporary cable tie", "temporary undertray-tie: cable tie"},
		{"door-scratch: minor, below the handle", "door-scratch: below the handle; minor"},
		{"undertray_tie: cable tie", "undertray-tie: cable tie"},
	} {
		for _, p := range proofread(t, folder("- [ ] "+c.item+"\n")) {
			if p.Fix == nil {
				continue
			}
			data := string(p.Span.File.Data)
			if got := data[:p.Fix.Span.Start] + p.Fix.Text + data[p.Fix.Span.End:]; got != "- [ ] "+c.want+"\n" {
				t.Errorf("%q is corrected to %q, want %q", c.item, got, c.want)
			}
		}
	}
}

// A digit that was lost is no other unit, and three hours are no "stripped".
func TestHelpsOfTheFirstEvening(t *testing.T) {
	for _, c := range []struct{ note, want string }{
		{"odometer: 9125 mi\n", "A digit may be missing"},
		{"odometer: 91,000 mi\n", "Write it in km"},
		{"time: 3 stripped the front\n", "Write 3h for hours or 3m for minutes."},
		{"time: 35h stripped\n", "or 3.5h if a point was lost"},
		{"time: 30h stripped\n", "Write one line for each day."},
	} {
		found := proofread(t, folder("-- 2026-04-01.md --\n---\nodometer: 146851 km\n---\n-- 2026-04-11.md --\n---\nstage: body\n"+c.note+"---\n"))
		if len(found) == 0 || !strings.Contains(found[0].Help, c.want) {
			t.Errorf("%q: %+v, want %q", c.note, found, c.want)
		}
	}
}

// The name of the program's own table wins over a slip of it, also where the slip came first.
func TestKnownCheckNameWins(t *testing.T) {
	wantOf(t, "near-check-name", "---\nchecks:\n  roadworthyness-test: failed worn bush\n---\n-- 2026-05-01.md --\n---\nchecks:\n  roadworthiness-test: passed\n---\n",
		"no check that falls due or has failed is called \"roadworthyness-test\"")
}
