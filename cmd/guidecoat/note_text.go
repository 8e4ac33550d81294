package main

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

const takeAway = "## Take away \"# \" from a line that you need, and change what is not so.\n"

// sessionText has front matter that is true already, lines to take the # from, and in a comment what is outstanding.
func sessionText(v *view.View, title string, first bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ndate: %s\n", v.AsOf)
	stage := runningStage(v)
	if stage != "" {
		fmt.Fprintf(&b, "stage: %s\n", stage)
	}
	if others := pick.Where(v.Stages, func(name string) bool { return name != stage }); others != nil {
		fmt.Fprintf(&b, "## Other stages: %s\n", strings.Join(others, ", "))
	}
	if first {
		return b.String() + firstLines(v, stage) + "---\n# " + title + "\n\n" + firstSnag
	}
	b.WriteString(takeAway)
	if v.Odometer != "" {
		fmt.Fprintf(&b, "# odometer: %s\n", v.Odometer)
	}
	b.WriteString("# time:\n#   - 19:30-21:15 what was done; hands 2\n" + partsInWork(v) + checksToDo(v))
	fmt.Fprintf(&b, "---\n# %s\n\n", title)
	if notes := outstanding(v) + scanToFill(v); notes != "" {
		b.WriteString("<!--\n" + notes + "-->\n")
	}
	return b.String()
}

// partsInWork has a line for each part on its way or in hand, with the state that comes next.
func partsInWork(v *view.View) string {
	var ordered, arrived, lines []string
	for _, p := range v.Parts {
		switch p.State {
		case "ordered":
			said := p.ID
			if p.Due != 0 {
				said += " (due " + p.Due.String() + ")"
			}
			ordered, lines = append(ordered, said), append(lines, "#   "+p.ID+": arrived")
		case "arrived":
			arrived, lines = append(arrived, p.ID), append(lines, "#   "+p.ID+": fitted")
		}
	}
	listed := func(before string, list []string, mark string) string {
		return pick.Either(list != nil, before+strings.Join(list, mark)+"\n", "")
	}
	return listed("## On order: ", ordered, ", ") + listed("## In hand: ", arrived, ", ") + listed("# parts:\n", lines, "\n")
}

func checksToDo(v *view.View) string {
	lines := ""
	for _, s := range v.Snags {
		if s.Open && (s.Source == fact.FromDue || s.Source == fact.FromCheck) {
			lines += "#   " + s.ID + ": passed\n"
		}
	}
	return pick.Either(lines == "", "", "# checks:\n"+lines)
}

func scanToFill(v *view.View) string {
	if len(v.Scans) == 0 {
		return ""
	}
	return "\nA fault scan: a code a line, or no faults.\n\n```scan " + inComment(v.Scans[len(v.Scans)-1].Unit) + "\nno faults\n```\n"
}

// firstLines show in the first note of a build what its front matter may hold.
func firstLines(v *view.View, stage string) string {
	noStage, bought := "", ""
	if stage == "" {
		stage, bought = "rear axle", "; stage buying"
		noStage = "# stage: " + stage + "\n"
	}
	for _, s := range v.Money.Costs.Stages {
		if s.Purchase && s.Name != stage {
			bought = "; stage " + s.Name
		}
	}
	return takeAway + "## More of what may stand here: guidecoat manual\n" + noStage + `# odometer: 91252 mi
# time:
#   - 3h40 beam out, seized bolts cut
#   - 19:30-21:15 with a friend; hands 2
# cost:
#   - 1400 what was paid for the vehicle; as vehicle` + bought + `
#   - 138 rear axle beam; for rear-beam; from Tidewell Dismantlers
#   - 2 x 6 copper grease; as consumables
# parts:
#   rear-beam: arrived rear axle beam; reconditioned
# remaining:
#   ` + stage + `: 120 180 300
`
}

const firstSnag = `<!--
Write what you did below this comment, and a line like this for each thing that is outstanding:

- [ ] temporary exhaust-hanger: hung on wire until the rubber comes
-->
`

// runningStage is that of the newest session that names one, else the first of the card.
func runningStage(v *view.View) string {
	for _, s := range slices.Backward(v.Sessions) {
		if s.Stage != "" {
			return s.Stage
		}
	}
	if len(v.Stages) > 0 {
		return v.Stages[0]
	}
	return ""
}

// outstanding lists the open snags by what settles them: a copied line, their own box, a line of the front matter.
func outstanding(v *view.View) string {
	var copied, inPlace, bySelf []string
	for _, s := range v.Snags {
		words := inComment(s.Typed)
		switch {
		case !s.Open:
		case s.ID != "" && (s.Source == fact.FromNote || s.Source == fact.FromSurcharge):
			copied = append(copied, "- [ ] "+strings.TrimSuffix(s.ID+": "+words, ": "))
		case s.Source == fact.FromNote:
			inPlace = append(inPlace, "- [x] "+words)
		default:
			bySelf = append(bySelf, words)
		}
	}
	listed := func(title string, lines []string) string {
		return pick.Either(lines != nil, title+"\n\n"+strings.Join(lines, "\n")+"\n", "")
	}
	return together("\n",
		listed("Outstanding. Copy a line below this comment to say a word about it, or with [x] to clear it.", copied),
		listed("Without an id. Copy a line below this comment to clear it.", inPlace),
		listed("Settled by a line below checks: or readings:, or by a fault scan.", bySelf))
}

// closing is what ends a comment: in Markdown the first form, in HTML both.
var closing = regexp.MustCompile(`--(!?)>`)

// inComment makes a text safe in a comment. The entity still reads as a bracket when the line is copied.
func inComment(text string) string {
	text = strings.Join(strings.Fields(clean(text)), " ")
	return closing.ReplaceAllString(text, "--${1}&gt;")
}

// cardText: in a garage it has the garage's currency and says how earlier budgets have fared.
func (w *world) cardText(dir, name string, day measure.Date) string {
	currency, hint := "", ""
	if g, _ := (&place{dir: dir}).garageAbove(); g != nil { // one that cannot be read hinders no new build
		currency, hint = g.Currency.Code, budgetHint(state.GarageAt(g, 0, day))
	}
	return fmt.Sprintf(newCard, name, cmp.Or(currency, "GBP"), hint)
}

func budgetHint(c *fact.Garage) string {
	var b strings.Builder
	for _, r := range c.TrackRecord() {
		if b.Len() == 0 {
			b.WriteString("## What stages came to by their likely budgets, in the builds that are sold:\n")
		}
		fmt.Fprintf(&b, "##   %s  %s in %s\n", clean(r.Stage), times(r), count(r.Builds, "build"))
	}
	return b.String()
}

// newCard: what is not known yet stands behind one #, what is said of it behind two.
const newCard = `---
## The job card. Take away "# " from what you know, and change what is not so. Lines with two
## marks, like this one, explain; leave them. More of it: guidecoat manual card, and for the systems
## and categories manual parts, manual damage.
build: %s
currency: %s
# vat: 20%%
# vehicle:
#   make: Halden
#   model: Fjord 2.0 estate
#   year: 2015
#   vin: the number on the frame
#   registration: the plate
#   category: S
## What was hit when you bought it.
# damage:
#   front: radiator support bent; system structure, cooling
## What it may sell for: low, likely, high; and what it should earn.
# resale: 4600 5200 5600
# profit: 800
## How much you work, what an hour of it should earn: for the day it is ready, and choices.
# pace: 6h a week
# hourly: 8
## What it would bring now, unfinished: guidecoat choices compares.
# offers:
#   as it stands: 2500; from a neighbour
## How sure the profit must be when bidding, what bids are multiples of, what the auction adds.
# confidence: 90%%
# bid increment: 25
# fees:
#   buyer's fee: 75 to 500, 130 to 1000, 195 to 2000, 12%% above; plus vat
#   delivery: 120
## The stages of the work. A budget is best, likely, worst, and so are your hours.
%s# stages:
#   buying: budget 1500; purchase
#   strip: budget 20 40 80; hours 6 10 16
#   mechanical: budget 260 340 520; hours 20 30 45
#   body: budget 150 220 400; hours 15 25 40; system body
#   paint: budget 120 180 260; hours 10 14 22; system paint
---
<!-- What this build is, in your own words. -->
`
