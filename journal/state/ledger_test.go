package state

import (
	"strings"
	"testing"

	"guidecoat/journal/trial"
)

// Every step of a line is rounded half away from zero to the minor unit of the
// currency it is then in. The values are worked out by hand beside each line.
func TestFourSteps(t *testing.T) {
	for _, c := range []struct {
		name, currency, line string
		want                 string // price+tax whole=build+garage
		fault                string
	}{
		// (1) quantity × price
		{name: "as typed", line: "138.00 beam", want: "138+0 138=138+0"},
		{name: "quantity", line: "3 x 4.99 hoses", want: "14.97+0 14.97=14.97+0"},
		{name: "half a penny up", line: "0.5 x 2.25", want: "1.13+0 1.13=1.13+0"},              // 1.125
		{name: "under half a penny", line: "0.3 x 0.48", want: "0.14+0 0.14=0.14+0"},           // 0.144
		{name: "a fine price", line: "12 x 0.125", want: "1.5+0 1.5=1.5+0"},                    // 1.5
		{name: "a binary trap", line: "1 x 2.675", want: "2.68+0 2.68=2.68+0"},                 // binary doubles make 2.67
		{name: "another", line: "1 x 1.005", want: "1.01+0 1.01=1.01+0"},                       // doubles make 1.00
		{name: "to whole yen", currency: "JPY", line: "3 x 0.5", want: "2+0 2=2+0"},            // 1.5
		{name: "to fils", currency: "KWD", line: "0.5 x 0.025", want: "0.013+0 0.013=0.013+0"}, // 0.0125
		// (2) tax on the rounded price
		{name: "card's tax", line: "100.00; plus vat", want: "100+20 120=120+0"},                           // VAT Notice 700: 1/6 of 120 is tax
		{name: "own tax", line: "100.00; plus vat 5%", want: "100+5 105=105+0"},                            // Notice 718/1 §3.3: 1/21 of 105
		{name: "half a penny of tax", line: "0.10; plus vat 5%", want: "0.1+0.01 0.11=0.11+0"},             // 0.005
		{name: "under it", line: "0.12; plus vat", want: "0.12+0.02 0.14=0.14+0"},                          // 0.024
		{name: "on the rounded price", line: "1 x 0.124; plus vat", want: "0.12+0.02 0.14=0.14+0"},         // of 0.124 it would be 0.0248, also 0.02
		{name: "which shows here", line: "1 x 0.125; plus vat 4%", want: "0.13+0.01 0.14=0.14+0"},          // 0.0052; of 0.125 it would be 0.005
		{name: "tax to no decimals", currency: "JPY", line: "125; plus vat 10%", want: "125+13 138=138+0"}, // 12.5
		// (3) exchange
		{name: "card's rate", line: "64.00 EUR", want: "64+0 55.04=55.04+0"},
		{name: "own rate", line: "64.00 EUR; rate 0.9", want: "64+0 57.6=57.6+0"},
		{name: "half a penny of exchange", line: "0.25 EUR; rate 0.9", want: "0.25+0 0.23=0.23+0"},     // 0.225
		{name: "after tax", line: "9.99 EUR; plus vat 19%", want: "9.99+1.9 10.23=10.23+0"},            // 1.8981; 11.89 × 0.86 = 10.2254
		{name: "from yen", line: "3 x 1.5 JPY; rate 0.005", want: "5+0 0.03=0.03+0"},                   // 4.5 → 5; 0.025
		{name: "into yen", currency: "JPY", line: "12.50 EUR; rate 163.4", want: "12.5+0 2043=2043+0"}, // 2042.5
		{name: "from fils", line: "1.005 KWD; rate 2.5", want: "1.005+0 2.51=2.51+0"},                  // 2.5125
		{name: "no rate", line: "5 JPY", fault: "no-rate 2026-04-01.md:2:9 |JPY|"},
		{name: "no rate, code in front", line: "JPY 5", fault: "no-rate 2026-04-01.md:2:7 |JPY|"},
		{name: "a code that was description", line: "5 ALL brackets", fault: "no-rate 2026-04-01.md:2:9 |ALL|"},
		{name: "the same in small letters", line: "5 all brackets", want: "5+0 5=5+0"},
		{name: "a rate on the own currency", line: "5; rate 0.9", fault: "own-rate 2026-04-01.md:2:10 |rate 0.9|"},
		// (4) share; the rest goes to the garage
		{name: "a quarter", line: "10.01; share 1/4", want: "10.01+0 10.01=2.5+7.51"},        // 2.5025
		{name: "half a penny of share", line: "0.01; share 50%", want: "0.01+0 0.01=0.01+0"}, // 0.005
		{name: "a third", line: "100; share 1/3", want: "100+0 100=33.33+66.67"},
		{name: "a seventh of a yen", currency: "JPY", line: "10; share 2/7", want: "10+0 10=3+7"}, // 2.857…
		{name: "all of it", line: "10; share 100%", want: "10+0 10=10+0"},
		// Tools
		{name: "tools", line: "240.00; as tools", want: "240+0 240=0+240"},
		{name: "tools with a share", line: "240.01; as tools; share 1/8", want: "240.01+0 240.01=30+210.01"}, // 30.00125
		{name: "tools with tax", line: "9.99; as tools; plus vat", want: "9.99+2 11.99=0+11.99"},             // 1.998
		// All at once: 49.995 → 50.00; 10.00; 60.00 × 0.8612 = 51.672 → 51.67; 6.45875 → 6.46.
		{name: "all four", line: "1.5 x 33.33 EUR; plus vat; rate 0.8612; share 12.5%", want: "50+10 51.67=6.46+45.21"},
		{name: "works out to zero", line: "1 x 0.001", fault: "works-out-to-zero 2026-04-01.md:2:7 |1 x 0.001|"},
		{name: "exchanged to zero", line: "0.01 EUR; rate 0.4", fault: "works-out-to-zero 2026-04-01.md:2:7 |0.01 EUR|"},
	} {
		currency := c.currency
		if currency == "" {
			currency = "GBP\nrates:\n  EUR: 0.86"
		}
		b := trial.Compile(t, "-- build.md --\n---\nbuild: x\nvat: 20%\ncurrency: "+currency+"\nstages:\n  x: y\n---\n"+trial.Session("2026-04-01.md", "cost: "+c.line+"\nstage: x", ""))
		if c.fault != "" {
			trial.WantFaults(t, c.name, b, c.fault)
			trial.WantEqual(t, c.name+": lines left out", b.LinesLeftOut, 1)
			trial.WantEqual(t, c.name+": sum", sums(At(b, 0, trial.Today).Costs()), "0.00/0.00/0.00/0.00")
			continue
		}
		trial.WantFaults(t, c.name, b)
		if len(b.Money) == 1 {
			m := b.Money[0]
			got := m.Price.String() + "+" + m.Tax.String() + " " + m.Whole.String() + "=" + m.Sum.Build.String() + "+" + m.Garage.String()
			trial.WantEqual(t, c.name+" "+c.line, got, c.want)
		}
	}
	b := trial.Compile(t, trial.Card("")+trial.Session("2026-04-01.md", "stage: x\ncost: 5; plus vat", ""))
	trial.WantFaults(t, "no tax known", b, "missing-vat 2026-04-01.md:3:10 |plus vat|")
}

// Without a currency the card is at fault, and no line is.
func TestNoCurrency(t *testing.T) {
	b := trial.Compile(t, "-- build.md --\n---\nbuild: x\n---\n"+trial.Session("2026-04-01.md", "stage: x\ncost:\n  - 0.40 washer\n  - £12.34 nut\n  - 3 x 0.125 EUR; surcharge 0.10; for a\nparts:\n  a: needed a", ""))
	trial.WantFaults(t, "no currency", b, "missing-currency build.md:1:1 ||")
}

func TestSums(t *testing.T) {
	b := trial.Compile(t, trial.Card("vat: 20%\nrates:\n  EUR: 0.86\nstages:\n  buying: purchase\n  rear axle: budget 100\n  paint: budget 200")+
		trial.Session("2026-04-01.md", `
stage: buying
cost:
  - 1500.00 the car; as vehicle; from Tidewell Auctions
  - 195; as fees; plus vat; from Tidewell Auctions
time: 2h`, "")+
		trial.Session("2026-04-05.md", `
stage: rear axle
parts:
  beam: fitted rear beam
  lacquer: needed lacquer; stage paint
cost:
  - 138.00 beam; for beam; from Mill Lane
  - 12.40 lacquer; for lacquer; from Mill Lane
  - 6.49 grease; as consumables; stage paint
  - 240; as tools; share 1/4
  - 30 sheets; on 2026-04-20
credit:
  - 20 refund; for beam; from Mill Lane
  - 3.50 scrap; as scrap; stage paint; on 2026-05-01
time:
  - 1h30; hands 2
  - 30m; stage paint`, "")+
		trial.Session("2026-04-10.md", "time: 15m\nparts:\n  beam: refitted again\n", ""))
	trial.WantFaults(t, "sums", b)
	c := At(b, 0, trial.Today).Costs()
	// 1500 + 234 + 138 + 12.40 + 6.49 + 60 + 30 = 1980.89; credits 23.50; 180 to the garage.
	trial.WantEqual(t, "sums", sums(c), "1980.89/23.50/1957.39/180.00")
	trial.WantEqual(t, "minutes", int(c.Minutes), 120+180+30+15)
	trial.WantEqual(t, "stages", stagesOf(c), "buying 1734.00-0.00 120min, rear axle 228.00-20.00 180min, paint 18.89-3.50 30min, unstaged 0.00-0.00 15min")
	trial.WantEqual(t, "categories", named(b, c.Categories), "vehicle 1500.00, fees 234.00, parts 150.40, consumables 6.49, tools 60.00, sundries 30.00")
	trial.WantEqual(t, "suppliers", named(b, c.Suppliers), "Mill Lane 150.40, Tidewell Auctions 1734.00")
	trial.WantEqual(t, "a stage's categories", named(b, c.Stages[1].Categories), "parts 138.00, tools 60.00, sundries 30.00")

	// As of a date: what is dated on or before, by `on` where it is given.
	c = At(b, trial.Day("2026-04-05"), trial.Today).Costs()
	trial.WantEqual(t, "on the day", sums(c), "1950.89/20.00/1930.89/180.00")
	trial.WantEqual(t, "on the day", stagesOf(c), "buying 1734.00-0.00 120min, rear axle 198.00-20.00 180min, paint 18.89-0.00 30min")
	trial.WantEqual(t, "the day before", sums(At(b, trial.Day("2026-04-04"), trial.Today).Costs()), "1734.00/0.00/1734.00/0.00")
	trial.WantEqual(t, "before all", sums(At(b, trial.Day("2020-01-01"), trial.Today).Costs()), "0.00/0.00/0.00/0.00")
	trial.WantEqual(t, "until `on`", sums(At(b, trial.Day("2026-04-20"), trial.Today).Costs()), "1980.89/20.00/1960.89/180.00")
}

// A line's stage is its own, else its part's (if its lines name one), else its
// session's, else none, which is said once for a session.
func TestStageOfMoney(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  strip: x\n  axle: x\n  paint: x")+
		trial.Session("2026-04-01.md", `
stage: strip
parts:
  named: needed x; stage axle
  vague: needed x
cost:
  - 1 g; for named; stage paint
  - 2 g; for named
  - 3 g; for vague
  - 4 g`, "")+
		trial.Session("2026-04-02.md", "cost:\n  - 5 g; for named\n  - 6 g; for vague\n  - 7 g\ncredit: 1.5; for later\nparts:\n  later: needed x", "")+
		trial.Session("2026-04-03.md", "parts:\n  later: fitted; stage paint\ncost:\n  - 8 g; stage axle", ""))
	trial.WantFaults(t, "stages", b, "unstaged-money 2026-04-02.md:4:5 |6|")
	var got []string
	for _, m := range b.Money {
		got = append(got, m.Price.String()+" "+m.Stage)
	}
	trial.WantEqual(t, "stages", strings.Join(got, ", "), "1 paint, 2 axle, 3 strip, 4 strip, 5 axle, 6 , 7 , 1.5 paint, 8 axle")
}

// What a category is where the line does not say.
func TestCategoriesByDefault(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: x\nparts:\n  hub: needed hub\ncost:\n  - 1 g\n  - 2 g; for hub\n  - 3 g; for hub; as paint\ncredit:\n  - 1 g\n  - 2 g; for hub; as surcharge\n  - 3 g; as spares", ""))
	var got []string
	for _, m := range b.Money {
		got = append(got, m.Category)
	}
	trial.WantEqual(t, "categories", strings.Join(got, " "), "sundries parts paint refund surcharge spares")
}

// A line with a mistake is left out whole, and every one is counted.
func TestLinesLeftOut(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  axle: x")+trial.Session("2026-04-01.md", `
stage: axle
time:
  - 3h; hand 2
  - 1h
cost:
  - 5 g; form T
  - 6 g; for hubb
  - 7 g; stage axel; for hubb
  - 8 JPY g
  - 9 g
  - 10 g; as tolos; on x
credit: 5; as parts
parts:
  hub: needed hub
  hubs: needed
  ring: neded ring
tiem: 3h
private: maybe
`, "- [ ] job a-b: x; mayor\n- [x] c-d: y\n- [ ] fine\n"))
	trial.WantFaults(t, "left out", b, "unknown-clause 2026-04-01.md:4:9 |hand|", "unknown-clause 2026-04-01.md:7:10 |form|", "unknown-part 2026-04-01.md:8:14 |hubb|",
		"unknown-stage 2026-04-01.md:9:16 |axel|", "unknown-part 2026-04-01.md:9:26 |hubb|", "no-rate 2026-04-01.md:10:7 |JPY|", "unknown-category 2026-04-01.md:12:14 |tolos|",
		"bad-date 2026-04-01.md:12:24 |x|", "unknown-category 2026-04-01.md:13:15 |parts|", "undescribed-part 2026-04-01.md:16:3 |hubs|", "unknown-state 2026-04-01.md:17:9 |neded|",
		"unknown-key 2026-04-01.md:18:1 |tiem|", "bad-yes-no 2026-04-01.md:19:10 |maybe|", "unknown-clause 2026-04-01.md:21:19 |mayor|", "unknown-snag 2026-04-01.md:22:7 |c-d|")
	trial.WantEqual(t, "lines left out", b.LinesLeftOut, 13)
	st := At(b, 0, trial.Today)
	trial.WantEqual(t, "what is sound", sums(st.Costs()), "9.00/0.00/9.00/0.00")
	trial.WantEqual(t, "minutes", int(st.Costs().Minutes), 60)
	trial.WantEqual(t, "parts", len(st.Parts), 1)
	trial.WantEqual(t, "snags", len(st.Snags), 1)
}

func TestSale(t *testing.T) {
	b := trial.Compile(t, trial.Card("vat: 20%\nresale: 4600 5200 5600\nrates:\n  EUR: 0.86\nstages:\n  x: budget 900")+
		trial.Session("2026-04-01.md", "stage: x\ncost: 700\ntime: 7h", "")+
		trial.Session("2026-05-01.md", "stage: x\nsold: 1000.00 EUR; to Mrs Ottermere; on 2026-04-20", "")+
		trial.Session("2026-05-02.md", "stage: x\nsold: 5; to nobody\ncost: 10 tyre after all", ""))
	trial.WantFaults(t, "sale", b, "sold-twice 2026-05-02.md:3:7 |5|")
	c := At(b, 0, trial.Today).Costs()
	if c.Sold == nil || c.Forecast != nil {
		t.Fatal("not sold, or still a forecast")
	}
	// 860 - 710 = 150; 150 × 60 / 420 = 21.428…
	trial.WantEqual(t, "sale", b.FormatMoney(c.Sold.Price)+" "+c.Sold.Date.String()+" "+b.FormatMoney(c.Sold.Profit)+" "+c.Sold.PerHour.String(), "860.00 2026-04-20 150.00 21.43")
	c = At(b, trial.Day("2026-04-19"), trial.Today).Costs()
	if c.Sold != nil || c.Forecast == nil {
		t.Error("sold before it was, or no forecast")
	}
	c = At(b, trial.Day("2026-04-20"), trial.Today).Costs()
	trial.WantEqual(t, "on the day", b.FormatMoney(c.Sold.Profit), "160.00")
	b = trial.Compile(t, trial.Session("2026-04-01.md", "stage: x\nsold: 100", ""))
	if s := At(b, 0, trial.Today).Costs().Sold; s.PerHour != nil || b.FormatMoney(s.Profit) != "100.00" {
		t.Errorf("without hours: %+v", s)
	}
	// A loss by the hour is rounded away from zero too: -0.5 × 60 / 180 = -0.1666…, -0.25 × 60/600 = -0.025.
	b = trial.Compile(t, trial.Session("2026-04-01.md", "stage: x\ncost: 100.25\nsold: 100\ntime: 10h", ""))
	trial.WantEqual(t, "a loss", At(b, 0, trial.Today).Costs().Sold.PerHour.String(), "-0.03")
}
