package journal

import (
	"testing"
)

// axle has a part of whose price £40 come back for the old one.
const axle = `
stage: axle
parts:
  beam: ordered exchange beam
cost: 138.00 exchange beam; for beam; surcharge 40; due 2026-05-30
`

// surchargeOf shows what is to come back of the beam's surcharge on a date.
func surchargeOf(b *Build, on string) string {
	st := At(b, day(on), today)
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
	b := compile(t, session("2026-04-10.md", axle, "")+
		session("2026-04-20.md", "stage: axle\ncredit: 15; as surcharge; for beam; on 2026-04-25", "")+
		session("2026-05-25.md", "stage: axle\ncredit: 25; as surcharge; for beam; on 2026-06-02", ""))
	wantFaults(t, "life", b)
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
		wantEqual(t, "on "+date, surchargeOf(b, date), want)
	}
	st := At(b, 0, today)
	wantList(t, "snag", snagsOf(st, FromSurcharge), []string{"beam-surcharge  cleared minor 2026-04-10..2026-06-02 |surcharge of £40.00 on beam, to come back for the old part|"})
	wantList(t, "half of it back", snagsOf(At(b, day("2026-05-01"), today), FromSurcharge), []string{"beam-surcharge  open minor 2026-04-10.. |£25.00 of the surcharge of £40.00 on beam, to come back for the old part|"})
	// It counts as a cost until it comes back, and `paid` knows refunds only.
	wantEqual(t, "sums", sums(st.Costs()), "138.00/40.00/98.00/0.00")
	wantEqual(t, "paid", b.FormatMoney(st.Part("beam").Paid), "138.00")
	wantEqual(t, "due", b.FormatMoney(At(b, day("2026-05-01"), today).Costs().SurchargeDue), "25.00")
}

func TestSurchargeOverEarlyAndGivenUp(t *testing.T) {
	for _, c := range []struct {
		name, more string
		on, want   string
		faults     []string
	}{
		{name: "more than it", more: session("2026-04-20.md", "stage: axle\ncredit: 40.01; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:3:9 |40.01|"}},
		{name: "more in two", more: session("2026-04-20.md", "stage: axle\ncredit:\n  - 30; as surcharge; for beam\n  - 20; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:5:5 |20|"}},
		{name: "once more when it is back", more: session("2026-04-20.md", "stage: axle\ncredit:\n  - 40; as surcharge; for beam\n  - 5; as surcharge; for beam", ""),
			on: "2026-04-20", want: "0.00 cleared 2026-04-20 since 2026-04-10", faults: []string{"surcharge-over 2026-04-20.md:5:5 |5|"}},
		{name: "before it", more: session("2026-04-09.md", "stage: axle\ncredit: 40; as surcharge; for beam", ""),
			on: "2026-04-20", want: "40.00 open since 2026-04-10", faults: []string{"surcharge-early 2026-04-09.md:3:9 |40|"}},
		{name: "on the same day, noted before", more: session("2026-04-10 a.md", "", "") + session("2026-04-01.md", "stage: axle\ncredit: 40; as surcharge; for beam; on 2026-04-10", ""),
			on: "2026-04-10", want: "0.00 cleared 2026-04-10 since 2026-04-10"},
		{name: "a surcharge never charged", more: session("2026-04-20.md", "stage: axle\nparts:\n  hub: needed hub\ncredit: 5; as surcharge; for hub", ""),
			on: "2026-04-20", want: "40.00 open since 2026-04-10", faults: []string{"surcharge-early 2026-04-20.md:5:9 |5|"}},
		{name: "given up", more: session("2026-05-01.md", "", "- [x] beam-surcharge: the old one was scrapped\n"), on: "2026-05-01", want: "0.00 cleared 2026-05-01 since 2026-04-10"},
		{name: "given up, the day before", more: session("2026-05-01.md", "", "- [x] beam-surcharge: x\n"), on: "2026-04-30", want: "40.00 open since 2026-04-10"},
		{name: "given up in part", more: session("2026-05-01.md", "stage: axle\ncredit: 15; as surcharge; for beam", "- [x] beam-surcharge: x\n"), on: "2026-05-01", want: "0.00 cleared 2026-05-01 since 2026-04-10"},
		{name: "given up, then charged again", more: session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-05-05", want: "30.00 open since 2026-05-05"},
		{name: "charged again, to be back by no day", more: session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-12-01", want: "30.00 open since 2026-05-05"},
		{name: "given up, yet it comes", more: session("2026-05-01.md", "", "- [x] beam-surcharge: x\n") + session("2026-05-05.md", "stage: axle\ncredit: 40; as surcharge; for beam", ""),
			on: "2026-05-05", want: "0.00 cleared 2026-05-01 since 2026-04-10", faults: []string{"surcharge-over 2026-05-05.md:3:9 |40|"}},
		{name: "a remark", more: session("2026-05-01.md", "", "- [ ] beam-surcharge: they want it by June\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10"},
		{name: "given up in its own session", more: session("2026-04-10 b.md", "", "- [x] beam-surcharge: x\n"), on: "2026-04-10", want: "0.00 cleared 2026-04-10 since 2026-04-10"},
		{name: "given up before it was charged", more: session("2026-04-01.md", "", "- [x] beam-surcharge: x\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10",
			faults: []string{"cleared-before-opened 2026-04-01.md:4:7 |beam-surcharge|"}},
		{name: "charged again", more: session("2026-04-20.md", "stage: axle\ncredit: 40; as surcharge; for beam", "") + session("2026-05-05.md", "stage: axle\ncost: 99; for beam; surcharge 30", ""),
			on: "2026-05-05", want: "30.00 open since 2026-05-05"},
		{name: "charged twice", more: session("2026-04-20.md", "stage: axle\ncost: 99; for beam; surcharge 30; due 2026-04-21", ""), on: "2026-04-22", want: "70.00 open overdue since 2026-04-10"},
		{name: "opened by hand", more: session("2026-05-01.md", "", "- [ ] job beam-surcharge: x\n"), on: "2026-05-01", want: "40.00 open since 2026-04-10",
			faults: []string{"id-taken 2026-05-01.md:4:11 |beam-surcharge|"}},
	} {
		b := compile(t, session("2026-04-10.md", axle, "")+c.more)
		wantFaults(t, c.name, b, c.faults...)
		wantEqual(t, c.name, surchargeOf(b, c.on), c.want)
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
		b := compile(t, session("2026-04-01.md", "stage: axle\n"+line+"\nparts:\n  beam: needed beam", ""))
		want := []string{}
		if fault != "" {
			want = append(want, fault)
		}
		wantFaults(t, line, b, want...)
	}
	// A tick on a surcharge that only a bad line charges goes with that line.
	b := compile(t, session("2026-04-01.md", "stage: x\ncost: 138; for beam; surcharge 140\nparts:\n  beam: needed beam", "- [x] beam-surcharge: x\n"))
	wantFaults(t, "no sound charge", b, "surcharge-too-large 2026-04-01.md:3:22 |surcharge 140|")
	wantEqual(t, "lines left out", b.LinesLeftOut, 2)
}
