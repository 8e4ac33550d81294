package state

import (
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// axle has a part of whose price £40 come back for the old one.
const axle = `
stage: axle
parts:
  beam: ordered exchange beam
cost: 138.00 exchange beam; for beam; surcharge 40; due 2026-05-30
`

// surchargeOf shows what is to come back of the beam's surcharge on a date.
func surchargeOf(b *journal.Build, on string) string {
	st := At(b, trial.Day(on), trial.Today)
	for _, s := range st.Snags {
		if s.ID == "beam-surcharge" {
			state := "open"
			if !s.Open {
				state = "cleared " + s.Cleared.String()
			}
			if s.Overdue {
				state += " overdue"
			}
			return b.FormatMoney(st.SurchargeDue) + " " + state + " since " + s.Opened.String()
		}
	}
	return b.FormatMoney(st.SurchargeDue)
}

func TestSurchargeLife(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-10.md", axle, "")+
		trial.Session("2026-04-20.md", "stage: axle\ncredit: 15; as surcharge; for beam; on 2026-04-25", "")+
		trial.Session("2026-05-25.md", "stage: axle\ncredit: 25; as surcharge; for beam; on 2026-06-02", ""))
	trial.WantFaults(t, "life", b)
	for date, want := range map[string]string{
		"2026-04-09": "0.00",
		"2026-04-10": "40.00 open since 2026-04-10",
		"2026-04-24": "40.00 open since 2026-04-10",
		"2026-04-25": "25.00 open since 2026-04-10",
		"2026-05-30": "25.00 open since 2026-04-10",
		"2026-05-31": "25.00 open overdue since 2026-04-10",
		"2026-06-01": "25.00 open overdue since 2026-04-10",
		"2026-06-02": "0.00 cleared 2026-06-02 since 2026-04-10",
	} {
		trial.WantEqual(t, "on "+date, surchargeOf(b, date), want)
	}
	st := At(b, 0, trial.Today)
	trial.WantList(t, "snag", snagsOf(st, fact.FromSurcharge), []string{"beam-surcharge  cleared minor 2026-04-10..2026-06-02 |surcharge of £40.00 on beam, to come back for the old part|"})
	trial.WantList(t, "half of it back", snagsOf(At(b, trial.Day("2026-05-01"), trial.Today), fact.FromSurcharge), []string{"beam-surcharge  open minor 2026-04-10.. |£25.00 of the surcharge of £40.00 on beam, to come back for the old part|"})
	// It counts as a cost until it comes back, and `paid` knows refunds only.
	trial.WantEqual(t, "sums", sums(st.Costs()), "138.00/40.00/98.00/0.00")
	trial.WantEqual(t, "paid", b.FormatMoney(*st.Part("beam").Paid), "138.00")
	trial.WantEqual(t, "due", b.FormatMoney(At(b, trial.Day("2026-05-01"), trial.Today).Costs().SurchargeDue), "25.00")
}

func TestSurchargeOverEarlyAndGivenUp(t *testing.T) {
	for _, c := range []struct {
		name, more string
		on, want   string
		faults     []string
	}{
		{name: "more than it", more: trial.Session("2026-04-20.md", "stage: axle\ncredit: 40.01; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:3:9 |40.01|"}},
		{name: "more in two", more: trial.Session("2026-04-20.md", "stage: axle\ncredit:\n  - 30; as surcharge; for beam\n  - 20; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:5:5 |20|"}},
		{name: "once more when it is back", more: trial.Session("2026-04-20.md", "stage: axle\ncredit:\n  - 40; as surcharge; for beam\n  - 5; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:5:5 |5|"}},
		{name: "before it", more: trial.Session("2026-04-09.md", "stage: axle\ncredit: 40; as surcharge; for beam", ""),
			on: "2026-04-20", want: "40.00 open since 2026-04-10", faults: []string{"surcharge-early 2026-04-09.md:3:9 |40|"}},
		{name: "on the same day, noted before", more: trial.Session("2026-04-10 a.md", "", "") + trial.Session("2026-04-01.md", "stage: axle\ncredit: 40; as surcharge; for beam; on 2026-04-10", ""),
			on: "2026-04-10", want: "0.00 cleared 2026-04-10 since 2026-04-10"},
		{name: "a surcharge never charged", more: trial.Session("2026-04-20.md", "stage: axle\nparts:\n  hub: needed hub\ncredit: 5; as surcharge; for hub", ""),
			on: "2026-04-20", want: "40.00 open since 2026-04-10", faults: []string{"surcharge-early 2026-04-20.md:5:9 |5|"}},
		{name: "given up", more: trial.Session("2026-05-01.md", "", "- [x] beam-surcharge: the old one was scrapped\n"), on: "2026-05-01", want: "0.00 cleared 2026-05-01 since 2026-04-10"},
		{name: "given up, the day before", more: trial.Session("2026-05-01.md", "", "- [x] beam-surcharge: x\n"), on: "2026-04-30", want: "40.00 open since 2026-04-10"},
		{name: "given up in part", more: trial.Session("2026-05-01.md", "stage: axle\ncredit: 15; as surcharge; for beam", "- [x] beam-surcharge: x\n"), on: "2026-05-01", want: "0.00 cleared 2026-05-01 since 2026-04-10"},
		{name: "given up, then charged again", more: trial.Session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + trial.Session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-05-05", want: "30.00 open since 2026-05-05"},
		{name: "charged again, to be back by no day", more: trial.Session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + trial.Session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-12-01", want: "30.00 open since 2026-05-05"},
		{name: "given up, yet it comes", more: trial.Session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + trial.Session("2026-05-05.md", "stage: axle\ncredit: 40; as surcharge; for beam", ""),
			on: "2026-05-05", want: "0.00 cleared 2026-05-01 since 2026-04-10", faults: []string{"surcharge-over 2026-05-05.md:3:9 |40|"}},
		{name: "a remark", more: trial.Session("2026-05-01.md", "", "- [ ] beam-surcharge: they want it by June\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10"},
		{name: "given up in its own session", more: trial.Session("2026-04-10 b.md", "", "- [x] beam-surcharge: x\n"), on: "2026-04-10", want: "0.00 cleared 2026-04-10 since 2026-04-10"},
		{name: "given up before it was charged", more: trial.Session("2026-04-01.md", "", "- [x] beam-surcharge: x\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10",
			faults: []string{"cleared-before-opened 2026-04-01.md:4:7 |beam-surcharge|"}},
		{name: "charged again", more: trial.Session("2026-04-20.md", "stage: axle\ncredit: 40; as surcharge; for beam", "") + trial.Session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-05-05", want: "30.00 open since 2026-05-05"},
		{name: "more than it, then charged again", more: trial.Session("2026-04-20.md", "stage: axle\ncredit: 50; as surcharge; for beam", "") + trial.Session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-05-05", want: "30.00 open since 2026-05-05", faults: []string{"surcharge-over 2026-04-20.md:3:9 |50|"}},
		{name: "charged twice", more: trial.Session("2026-04-20.md", "stage: axle\ncost: 99; for beam; surcharge 30; due 2026-04-21", ""), on: "2026-04-22", want: "70.00 open overdue since 2026-04-10"},
		{name: "opened by hand", more: trial.Session("2026-05-01.md", "", "- [ ] job beam-surcharge: x\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10",
			faults: []string{"id-taken 2026-05-01.md:4:11 |beam-surcharge|"}},
	} {
		b := trial.Compile(t, trial.Session("2026-04-10.md", axle, "")+c.more)
		trial.WantFaults(t, c.name, b, c.faults...)
		trial.WantEqual(t, c.name, surchargeOf(b, c.on), c.want)
	}
}

func TestSurchargeFaults(t *testing.T) {
	for line, fault := range map[string]string{
		"cost: 138; surcharge 40":                                "surcharge-needs-for 2026-04-01.md:3:12 |surcharge 40|",
		"cost: 138; for beam; surcharge 140":                     "surcharge-too-large 2026-04-01.md:3:22 |surcharge 140|",
		"cost: 138; for beam; surcharge 138":                     "",
		"cost: 138; for beam; surcharge 140; plus vat":           "", // within the price, tax and all
		"cost: 138; for beam; surcharge 40; share 1/2":           "surcharge-shared 2026-04-01.md:3:36 |share 1/2|",
		"cost: 138; for beam; due 2026-05-01":                    "due-needs-surcharge 2026-04-01.md:3:22 |due 2026-05-01|",
		"credit: 40; as surcharge":                               "surcharge-needs-for 2026-04-01.md:3:13 |as surcharge|",
		"cost: 160 EUR; for beam; surcharge 138; rate 0.8625":    "", // in the build's currency: 138.00
		"cost: 160 EUR; for beam; surcharge 138.01; rate 0.8625": "surcharge-too-large 2026-04-01.md:3:26 |surcharge 138.01|",
	} {
		b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: axle\n"+line+"\nparts:\n  beam: needed beam", ""))
		want := []string{}
		if fault != "" {
			want = append(want, fault)
		}
		trial.WantFaults(t, line, b, want...)
	}
	// A tick on a surcharge that only a bad line charges goes with that line.
	b := trial.Compile(t, trial.Session("2026-04-01.md", "stage: x\ncost: 138; for beam; surcharge 140\nparts:\n  beam: needed beam", "- [x] beam-surcharge: x\n"))
	trial.WantFaults(t, "no sound charge", b, "surcharge-too-large 2026-04-01.md:3:22 |surcharge 140|")
	trial.WantEqual(t, "lines left out", b.LinesLeftOut, 2)
}
