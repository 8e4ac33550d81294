package main

import (
	"cmp"
	"fmt"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
)

// cardText is the text of a new job card. In a garage it has the garage's currency
// and says how the first budgets of its sold builds have fared.
func (w *world) cardText(dir, name string, day measure.Date) string {
	currency, hint := "", ""
	if g, _ := (&place{dir: dir}).garageAbove(); g != nil { // one that cannot be read hinders no new build
		currency, hint = g.Currency.Code, budgetHint(state.GarageAt(g, 0, day))
	}
	return fmt.Sprintf(newCard, name, cmp.Or(currency, "GBP"), hint)
}

// budgetHint is the track record of first budgets as comments of a job card.
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

// newCard is a new job card. What is not known yet stands behind one #, what is said of it
// behind two.
const newCard = `---
## The job card. Take away "# " from what you know, and change what is not so. What stands
## behind ## is only said to you.
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
#   rear axle: beam and brakes; budget 260 340 520; hours 20 30 45; system suspension
---
<!-- What this build is, in your own words. -->
`
