package view

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/note"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

func TestAllMet(t *testing.T) {
	if !AllMet(nil) || AllMet([]RequirementView{{Met: true}, {}}) || !AllMet([]RequirementView{{Met: true}}) {
		t.Error("AllMet")
	}
}

// The pack tells the buyer nothing of what is private but its severity.
func TestPackWithholds(t *testing.T) {
	b := trial.Compile(t, trial.Card("vehicle:\n  contact: ask-me")+trial.Session("2026-04-01.md", "parts:\n  hidden-part: needed part-secret; system brakes; private\n  mixed-part: arrived part-shown; system brakes\n  moved-part: needed part-moved; system brakes", `
- [ ] job shown-snag: words-shown <!-- comment-secret -->; major
- [ ] temporary hidden-snag: words-secret; private
- [ ] job small-snag: small-secret; private; minor
`)+trial.Session("2026-04-02.md", "parts:\n  moved-part: ordered; private", ""))
	st := state.At(b, 0, trial.Today)
	v := ForHandover(st, ForBuyer, nil)
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
	trial.WantList(t, "requirements", all, []string{
		"notes true  map[]", "temporary false  map[major:1]", "safety false shown snag: words-shown map[major:1]", "minor false  map[minor:1]",
		"parts false a part that is not described here, part-shown: arrived, a part that is not described here map[]", "money true  map[]",
		"record false neither VIN nor registration is stated, the odometer is not stated, the salvage category, or that there is none, is not stated map[]", "inspection true  map[]", "category true  map[]"})
	trial.WantEqual(t, "withheld", v.Withheld[note.Major], 1)
	for to, want := range map[Audience]int{ForPublic: 0, ForBuyer: 1, ForWorkshop: 1} {
		w := Of(st, to)
		if w.Handover != nil || len(w.Vehicle) != want {
			t.Errorf("%s: handover %v, vehicle %v", to, w.Handover, w.Vehicle)
		}
	}
}

// What has fired is named only to those who may know of the part that replaces it.
func TestFiredPartsThatAreHidden(t *testing.T) {
	b := trial.Compile(t, trial.Card("damage:\n  left side: door beaten in; fired curtain-left; fired airbag-left; fired airbag-knee")+
		trial.Session("2026-04-01.md", "parts:\n  curtain-left: needed curtain above the door; private\n  airbag-left: needed airbag in the door", ""))
	trial.WantFaults(t, "the build", b)
	for to, want := range map[Audience]string{ForPublic: "airbag in the door, airbag knee", ForBuyer: "airbag in the door, airbag knee", ForWorkshop: "curtain above the door, airbag in the door, airbag knee"} {
		v := Of(state.At(b, 0, trial.Today), to)
		trial.WantEqual(t, string(to), strings.Join(v.Damage[0].Fired, ", "), want)
		trial.WantEqual(t, string(to)+" reads of the curtain", strings.Contains(strings.Join(everythingIn(v), "\n"), "curtain"), to == ForWorkshop)
	}
}

// The papers of the trader, such as what he is insured for, are no matter of anybody else.
func TestPapersAreTheTradersOwn(t *testing.T) {
	st := state.At(trial.Compile(t, trial.Card("papers:\n  insurance: cover note; until 2026-06-20; road yes")+trial.Session("2026-06-01.md", "stage: all", "- [ ] job lamp-dim: dim; minor")), 0, trial.Today)
	for to, want := range map[Audience]string{ForPublic: "lamp-dim; notes dangerous inspection category", ForBuyer: "lamp-dim; notes dangerous inspection category", ForWorkshop: "lamp-dim paper-insurance; notes dangerous inspection papers category"} {
		v := ForHandover(st, to, nil)
		var ids, asked []string
		for _, s := range v.Snags {
			ids = append(ids, s.ID)
		}
		for _, r := range v.Handover.ToDrive {
			asked = append(asked, r.Name)
		}
		trial.WantEqual(t, string(to), strings.Join(ids, " ")+"; "+strings.Join(asked, " "), want)
		trial.WantEqual(t, string(to)+" reads of the insurance", strings.Contains(strings.Join(everythingIn(v), "\n"), "insurance"), to == ForWorkshop)
		trial.WantEqual(t, string(to)+": not shown", v.UnseenOpen, 0)
	}
}
