package view

import (
	"strings"
	"testing"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

const toSell = `-- build.md --
---
build: Halden Fjord
currency: GBP
vehicle:
  make: Halden
  VIN: 1M8GDM9AXKP042788
  registration: zqplate
  owner: zqowner
  category: S
  mileage: 90000
damage:
  left side: sill folded
stages:
  body: budget 300
---
-- 2026-06-01.md --
---
stage: body
odometer: 91000 mi
cost: 200 all of it; from zqsupplier
parts:
  wing: fitted left wing; used; genuine; from zqsupplier
  rail: refitted rail end, straightened
  lamp: needed lamp
  horn: fitted zqhorn; private
  seat: fitted seat
  - seat: fitted zqseat; private
checks:
  road-test: done ten miles
  secret-check: done zqcheck; private
inspection: passed; by zqstation; until 2027-06-01
---
- [ ] job sill-scratch: **scratch** on the sill; minor; disclose
- [ ] temporary exhaust-wire: wired up
- [ ] job gone-a: x
- [x] gone-a: done
- [ ] job zqhidden-a: zqhidden; dangerous; private
-- 2026-06-05.md --
---
sale:
  - asked 7,650.00
  - floor 7,000.00
  - deposit 300.00
  - kept 300.00
checks:
  road-test: done forty miles
---
`

// The advert holds facts, what is wrong among them, and nothing that is private.
func TestAdvert(t *testing.T) {
	b := trial.Compile(t, strings.Replace(toSell, "  seat: fitted seat\n  - seat: fitted zqseat; private\n", "", 1))
	trial.WantFaults(t, "the build", b)
	s := Of(state.At(b, 0, trial.Day("2026-06-06")), ForWorkshop).Selling
	trial.WantEqual(t, "the advert", s.Advert, `Halden Fjord

The vehicle
- make: Halden
- category: S
- odometer: 91000 mi, on 2026-06-01
- official inspection: passed on 2026-06-01, until 2027-06-01

What had happened to it
- left side: sill folded

Fitted
- left wing (used, genuine)
- rail end, straightened (refitted)

Checked
- road test: done on 2026-06-05

To know before you buy
- scratch on the sill

Still open
- temporary fix: exhaust wire: wired up (major)

A record of the work comes with it, from 2026-06-01 to 2026-06-05.
Asking £7,650.00.
`)
	trial.WantEqual(t, "grave ones withheld", s.Withheld, 1)
	private := trial.Compile(t, strings.Replace(toSell, "  - seat: fitted zqseat; private\n", "", 1)+"-- 2026-06-09.md --\n---\nprivate: yes\nodometer: 91777 mi\n---\n")
	trial.WantEqual(t, "a private note changes nothing", Of(state.At(private, 0, trial.Day("2026-06-10")), ForWorkshop).Selling.Advert, strings.Replace(s.Advert, "(refitted)\n", "(refitted)\n- seat\n", 1))
	// 300 in the end, less the 300 kept of a deposit.
	trial.WantEqual(t, "break-even", s.BreakEven.StringFixed(2), "0.00")
	trial.WantEqual(t, "floor", s.Floor.StringFixed(2), "7000.00")
	failed := trial.Compile(t, strings.Replace(toSell, "  - seat: fitted zqseat; private\n", "", 1)+"-- 2026-06-08.md --\n---\nprivate: yes\ninspection: failed\n---\n")
	if got := Of(state.At(failed, 0, trial.Day("2026-06-10")), ForWorkshop).Selling.Advert; !strings.Contains(got, "- official inspection: none is recorded\n") || strings.Contains(got, "passed") || strings.Contains(got, "failed") {
		t.Errorf("the newest inspection is private: %s", got)
	}
	// 300 in the end, a tyre that the first buyer was paid, less what was kept of his money.
	back := trial.Compile(t, trial.Card("stages:\n  body: budget 300")+trial.Session("2026-06-01.md", "stage: body\ncost: 200 all of it\nsale:\n  - agreed 5000\n  - paid 5000\n  - claim 60 a tyre\n  - kept 150\n  - returned", ""))
	trial.WantEqual(t, "break-even once it came back", Of(state.At(back, 0, trial.Today), ForWorkshop).Selling.BreakEven.StringFixed(2), "210.00")
	for _, to := range []Audience{ForPublic, ForBuyer} {
		if Of(state.At(b, 0, trial.Today), to).Selling != nil {
			t.Errorf("%s sees what the price is made of", to)
		}
	}
	sold := trial.Compile(t, toSell+"-- 2026-07-01.md --\n---\nsold: 7000\n---\n")
	if Of(state.At(sold, 0, trial.Today), ForWorkshop).Selling != nil {
		t.Error("it is sold, and still advertised")
	}
}
