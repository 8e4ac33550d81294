package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal/trial"
)

// quotesOf shows the quotes as "part from: price+freight+duty+tax+clearance=landed, days, holding best".
func quotesOf(st *State) []string {
	f := st.Build.FormatMoney
	list := []string{}
	for _, q := range st.Quotes() {
		line := fmt.Sprintf("%s %s: %s+%s+%s+%s+%s=%s", q.Part, q.From, f(q.Price), f(q.Freight), f(q.Duty), f(q.Tax), f(q.Clearance), f(q.Landed))
		if q.Wait != nil {
			line += fmt.Sprintf(", %d days", *q.Wait)
		}
		if q.Holding != nil {
			line += ", holding " + f(*q.Holding)
		}
		if q.Best {
			line += ", best"
		}
		if q.Expired {
			line += ", expired"
		}
		list = append(list, line)
	}
	return list
}

func quoted(t *testing.T, card, quotes string) *State {
	t.Helper()
	b := trial.Compile(t, trial.Card("vat: 20%\nrates:\n  EUR: 0.86\n  USD: 0.8\n"+card)+
		trial.Session("2026-04-01.md", "stage: body\nparts:\n  curtain: needed curtain\n  seal: needed seal\nquotes:\n  "+strings.ReplaceAll(quotes, "\n", "\n  "), ""))
	trial.WantFaults(t, quotes, b)
	return At(b, trial.Day("2026-04-20"), 0)
}

func TestLandedPrices(t *testing.T) {
	for _, c := range []struct{ name, quote, want string }{
		{"at home", "curtain: 310.00; from Kestrand", "curtain Kestrand: 310.00+0.00+0.00+0.00+0.00=310.00, best"},
		{"at home without tax", "curtain: 310.00; plus vat", "curtain : 372.00+0.00+0.00+0.00+0.00=372.00, best"},
		{"from abroad, with everything", "curtain: 310.00 EUR; from Kestrand; freight 38.00 EUR; duty 3.7%; import vat; clearance 12.00 plus vat; wait 24d; until 2026-05-01",
			"curtain Kestrand: 266.60+32.68+11.07+62.07+14.40=386.82, 24 days, best"},
		// What is sent is worth its price and what it takes to bring it to the border (Union
		// Customs Code, Regulation 952/2013, Articles 70 and 71(1)(e)); import tax is on that
		// with the duty (Directive 2006/112/EC, Articles 85 and 86). From memory, with round
		// figures: 1,000 and 100 of freight at 10 % give 110 of duty, and at 20 % 242 of tax.
		{"in round figures", "curtain: 1,000.00; freight 100.00; duty 10%; import vat 20%", "curtain : 1000.00+100.00+110.00+242.00+0.00=1452.00, best"},
		{"each of its own currency", "curtain: 100 EUR; freight 10 USD; clearance 5.00", "curtain : 86.00+8.00+0.00+0.00+5.00=99.00, best"},
		{"the line's rate is for its price", "curtain: 100 EUR; rate 0.9; freight 10 EUR; clearance 5 USD", "curtain : 90.00+9.00+0.00+0.00+4.00=103.00, best"},
		{"half pennies go up, step by step", "curtain: 10.10; duty 2.5%; import vat 5%", "curtain : 10.10+0.00+0.25+0.52+0.00=10.87, best"},
		{"no duty, and tax of its own rate on clearing", "curtain: 10.00; duty 0%; import vat 0%; clearance 2.50 plus vat 7%; wait 2 weeks", "curtain : 10.00+0.00+0.00+0.00+2.68=12.68, 14 days, best"},
	} {
		trial.WantList(t, c.name, quotesOf(quoted(t, "", c.quote)), []string{c.want})
	}
}

func TestQuotesSideBySide(t *testing.T) {
	card := "pace: 6h a week\nholding:\n  storage: 10.00 a week\n  insurance: 22.00 a month"
	quotes := "- seal: 20.00; from Rolke\n- curtain: 350.00; from Tidewell; wait 2d\n- curtain: 310.00; from Kestrand; wait 24d\n- curtain: 300.00; from Marl; wait 1d; until 2026-04-19\n- curtain: 340.00; from Dag\n- seal: 19.00 a used one; from Rolke"
	trial.WantList(t, "what waiting costs decides", quotesOf(quoted(t, card, quotes)), []string{
		"curtain Dag: 340.00+0.00+0.00+0.00+0.00=340.00, best",
		"curtain Tidewell: 350.00+0.00+0.00+0.00+0.00=350.00, 2 days, holding 4.31",
		"curtain Kestrand: 310.00+0.00+0.00+0.00+0.00=310.00, 24 days, holding 51.69",
		"curtain Marl: 300.00+0.00+0.00+0.00+0.00=300.00, 1 days, holding 2.15, expired",
		"seal Rolke: 19.00+0.00+0.00+0.00+0.00=19.00, best",
		"seal Rolke: 20.00+0.00+0.00+0.00+0.00=20.00",
	})
	trial.WantList(t, "its last day, and the day after that of another", quotesOf(quoted(t, "", "- curtain: 310.00; from Marl; until 2026-04-20\n- curtain: 300.00; from Dag; until 2026-04-19")), []string{
		"curtain Marl: 310.00+0.00+0.00+0.00+0.00=310.00, best", "curtain Dag: 300.00+0.00+0.00+0.00+0.00=300.00, expired"})
	later := trial.Card("") + trial.Session("2026-04-01.md", "stage: body\nparts:\n  curtain: needed curtain\nquotes:\n  curtain: 310.00; from Kestrand", "") +
		trial.Session("2026-04-10.md", "quotes:\n  - curtain: 330.00; from Kestrand\n  - curtain: 320.00", "") + trial.Session("2026-04-15.md", "stage: body\nparts:\n  curtain: ordered", "")
	b := trial.Compile(t, later)
	trial.WantList(t, "before the later note", quotesOf(At(b, trial.Day("2026-04-09"), 0)), []string{"curtain Kestrand: 310.00+0.00+0.00+0.00+0.00=310.00, best"})
	trial.WantList(t, "a later price of the same supplier", quotesOf(At(b, trial.Day("2026-04-10"), 0)), []string{"curtain : 320.00+0.00+0.00+0.00+0.00=320.00, best", "curtain Kestrand: 330.00+0.00+0.00+0.00+0.00=330.00"})
	trial.WantList(t, "once it is ordered", quotesOf(At(b, trial.Day("2026-04-15"), 0)), nil)
}

func TestBadQuotes(t *testing.T) {
	b := trial.Compile(t, trial.Card("rates:\n  EUR: 0.86")+trial.Session("2026-04-01.md", `stage: body
parts:
  curtain: needed curtain
  lamp: fitted lamp; free
quotes:
  - courtain: 310.00
  - lamp: 20.00
  - curtain: 310.00; duty 101%
  - curtain: 310.00; import vat
  - curtain: 310.00; clearance 5 plus vat
  - curtain: 310.00; freight 5 SEK
  - curtain: 310.00; clearance 5 plus tax
  - curtain: 310.00; clearance 5 plus vat 200%
  - curtain: 310.00; wait soon
  - curtain: 310.00; rate 0.9`, ""))
	trial.WantFaults(t, "quotes", b, "unknown-part 2026-04-01.md:7:5 |courtain|", "quote-unneeded 2026-04-01.md:8:5 |lamp|", "bad-number 2026-04-01.md:9:27 |101%|",
		"missing-vat 2026-04-01.md:10:22 |import vat|", "missing-vat 2026-04-01.md:11:22 |clearance 5 plus vat|", "no-rate 2026-04-01.md:12:32 |SEK|",
		"extra-words 2026-04-01.md:13:34 |plus tax|", "extra-words 2026-04-01.md:14:34 |plus vat 200%|", "bad-number 2026-04-01.md:15:27 |soon|", "own-rate 2026-04-01.md:16:22 |rate 0.9|")
	trial.WantList(t, "none is left of the part that is needed", quotesOf(At(b, 0, trial.Today)), nil)
}
