package journal

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/note"
)

// The pack tells the buyer nothing of what is private but its severity.
func TestPackWithholds(t *testing.T) {
	b := compile(t, card("vehicle:\n  contact: ask-me")+session("2026-04-01.md", "parts:\n  hidden-part: needed part-secret; system brakes; private\n  mixed-part: arrived part-shown; system brakes", `
- [ ] job shown-snag: words-shown <!-- comment-secret -->; major
- [ ] temporary hidden-snag: words-secret; private
- [ ] job small-snag: small-secret; private; minor
`))
	st := At(b, 0, today)
	v := BuyersPack(st, st.ToSell(nil), st.ToDrive(nil))
	var all []string
	for _, r := range v.Handover.Requirements {
		var stops []string
		for _, stop := range r.Stops {
			stops = append(stops, stop.Words)
			if stop.Snag == nil && stop.Part == nil && (r.Name == "safety" || r.Name == "minor") {
				t.Errorf("%s: %q leads nowhere", r.Name, stop.Words)
			}
		}
		all = append(all, fmt.Sprint(r.Name, " ", r.Met, " ", strings.Join(stops, ", "), " ", r.Withheld))
	}
	wantList(t, "requirements", all, []string{
		"notes true  map[]", "temporary false  map[major:1]", "safety false words-shown  map[major:1]", "minor false  map[minor:1]",
		"parts false a part that is not described here, part-shown: arrived map[]", "money true  map[]",
		"record false neither VIN nor registration is stated, the odometer is not stated, the salvage category, or that there is none, is not stated map[]"})
	wantEqual(t, "withheld", v.Withheld[note.Major], 1)
	for to, want := range map[Audience]int{ForPublic: 0, ForBuyer: 1, ForWorkshop: 1} {
		w := Of(st, to)
		if w.Handover != nil || len(w.Vehicle) != want {
			t.Errorf("%s: handover %v, vehicle %v", to, w.Handover, w.Vehicle)
		}
	}
}
