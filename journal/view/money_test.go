package view

import (
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
	"testing"
)

// What the buyer may not see of the costs is not told by what came back of them.
func TestRefundsOfWhatIsNotShown(t *testing.T) {
	const costs = "cost:\n  - 100.00 insurance; as fees; from Osmerby\n  - 50.00 seals; from Tidewell\n  - 8.00 advert; as fees; from Tidewell\n  - 30.00 trailer; as fees; for tow-bar; from Tidewell\nparts:\n  tow-bar: needed tow bar\ncredit: "
	for _, c := range []struct{ credit, want string }{
		{"9.60 days not used; as refund; from Osmerby", "0.00"},
		{"9.60 days not used; from Osmerby", "0.00"},
		{"9.60 the trailer; for tow-bar; from Tidewell", "0.00"},
		{"9.60 not said of what", "9.60"},
		{"9.60 seals or advert; from Tidewell", "9.60"},
		{"9.60 somebody else; from Vennick", "9.60"},
		{"9.60 the old one; as scrap; from Osmerby", "9.60"},
	} {
		b := trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", costs+c.credit, ""))
		v := Of(state.At(b, 0, trial.Today), ForBuyer)
		trial.WantEqual(t, c.credit, b.FormatMoney(v.Money.Costs.Credits), c.want)
		trial.WantEqual(t, c.credit+", to the workshop", b.FormatMoney(Of(state.At(b, 0, trial.Today), ForWorkshop).Money.Costs.Credits), "9.60")
		if lines := len(v.Sessions[0].Money); (lines == 2) != (c.want != "0.00") {
			t.Errorf("%s: %d lines", c.credit, lines)
		}
	}
}

// What it costs to keep the vehicle is the trader's business, also where all other money is shown.
func TestHoldingIsHidden(t *testing.T) {
	b := trial.Compile(t, trial.Card("weeks: 10\nholding:\n  storage: 12.50 a week\npublic:\n  money: totals\nstages:\n  body: budget 300")+trial.Session("2026-07-01.md", "stage: body\ncost: 100 a wing", ""))
	public, workshop := Of(state.At(b, 0, trial.Today), ForPublic).Money.Costs, Of(state.At(b, 0, trial.Today), ForWorkshop).Money.Costs
	if public.Forecast == nil || public.Forecast.Holding != nil {
		t.Errorf("the public reads the forecast %+v", public.Forecast)
	}
	if h := workshop.Forecast.Holding; h == nil || h.StringFixed(2) != "125.00" {
		t.Errorf("the workshop reads of a holding of %v", h)
	}
}
