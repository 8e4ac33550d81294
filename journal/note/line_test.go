package note

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// show writes a value that was read, so that tables can say it.
func show(v any) string {
	limit := func(q *measure.Quantity) string {
		if q == nil {
			return "open"
		}
		return q.String()
	}
	switch v := v.(type) {
	case nil:
		return ""
	case Amount:
		s := v.Number.String()
		if v.HasQuantity {
			s = v.Quantity.String() + "x" + s
		}
		return s + " " + v.Currency.Code
	case SaleHead:
		if v.End == 0 {
			return v.Word
		}
		return v.Word + " " + show(v.Amount)
	case Taxed:
		s := show(v.Amount)
		if v.Plus {
			s += " plus"
		}
		if v.VAT != nil {
			s += " " + v.VAT.String()
		}
		return s
	case [3]decimal.Decimal:
		return fmt.Sprintf("%s/%s/%s", v[0], v[1], v[2])
	case Weeks:
		return show([3]decimal.Decimal(v))
	case [3]measure.Minutes:
		return fmt.Sprintf("%d/%d/%d", v[0], v[1], v[2])
	case measure.Minutes:
		return fmt.Sprintf("%dmin", int(v))
	case money.Fraction:
		return fmt.Sprintf("%d/%d", v.Num, v.Den)
	case Limits:
		return limit(v.Min) + ".." + limit(v.Max)
	case Due:
		if v.Date != 0 {
			return v.Date.String()
		}
		return v.Distance.String()
	case []string:
		return strings.Join(v, "+")
	case money.Currency:
		return v.Code
	}
	return fmt.Sprint(v)
}

// lineOf shows a line as `HEAD |words| clause=value; clause=value`.
func lineOf(l *Line) string {
	s := show(l.Head)
	if l.Words().S != "" {
		s += " |" + l.Words().S + "|"
	}
	for i, c := range l.Clauses {
		if i > 0 {
			s += ";"
		}
		if s += " " + c.Word; c.Arg.S != "" {
			s += "=" + show(c.Value)
		}
	}
	return strings.TrimSpace(s)
}

// lineCases are lines under their keys as the manual has them: every clause of
// every kind, the forms of its value, and what is wrong with others. The line
// stands on line 2, or below its key on line 3; columns count from there.
var lineCases = []struct {
	line, want string
	faults     []string
}{
	// Time.
	{line: "time: 3h40 beam out, seized bolts cut", want: "220min |beam out, seized bolts cut|"},
	{line: "time: 19:30-21:15; hands 2", want: "105min hands=2"},
	{line: "time: 3:40 cutting; private; hands 9; stage rear axle", want: "220min |cutting| private; hands=9; stage=rear axle"},
	{line: "time: PT3H40M", want: "220min"},
	{line: "time: 2 hours #320 grit", want: "120min |#320 grit|"},
	{line: "time: 3h; hands 0", faults: []string{"bad-number 2:17-2:18 |0|"}},
	{line: "time: 3h; hands 10", faults: []string{"bad-number 2:17-2:19 |10|"}},
	{line: "time: 3h; hands two", faults: []string{"bad-number 2:17-2:20 |two|"}},
	{line: "time: 3h; hands 2 men", faults: []string{"bad-number 2:17-2:22 |2 men|"}},
	{line: "time: 25h", faults: []string{"bad-duration 2:7-2:10 |25h|"}},
	{line: "time: all day", faults: []string{"bad-duration 2:7-2:10 |all|"}},
	{line: "time: 3h, filler", want: "180min |filler|"},
	{line: "time: 6h less an hour for lunch", want: "300min |less an hour for lunch|"},
	{line: "time: 2h minus half an hour for tea", want: "90min |minus half an hour for tea|"},
	{line: "time: 9:00-17:00 less 1h 30m lunch", want: "390min |less 1h 30m lunch|"},
	{line: "time: 10:00-16:30 beam out, with half an hour lunch", want: "360min |beam out, with half an hour lunch|"},
	{line: "time: 10:00-16:30 (break of 15m)", want: "375min |(break of 15m)|"},
	{line: "time: 6h beam out, with half an hour lunch", want: "360min |beam out, with half an hour lunch|"},
	{line: "time: 1h less 55m lunch", want: "5min |less 55m lunch|"},
	{line: "time: 1h less 60m lunch", faults: []string{"bad-duration 2:15-2:18 |60m|"}},
	{line: "time: 12:00-13:00 lunch of 1h", faults: []string{"bad-duration 2:28-2:30 |1h|"}},
	{line: "readings:\n  disc-left: 8 mm, was 9", want: "8 mm |was 9|"},
	{line: "readings:\n  disc-left: 8 mm,9 before", faults: []string{"bad-measurement 3:16-3:20 |mm,9|"}},

	// Cost.
	{line: "cost: 138.00, beam, used", want: "138 GBP |beam, used|"},
	{line: "cost: 138.00 rear axle beam, used; for rear-beam; from Tidewell Dismantlers; receipt 20411",
		want: "138 GBP |rear axle beam, used| for=rear-beam; from=Tidewell Dismantlers; receipt=20411"},
	{line: "cost: 2 x 6.49 copper grease; as consumables", want: "2x6.49 GBP |copper grease| as=consumables"},
	{line: "cost: 0.75 × 12.40 sheet; stage panel", want: "0.75x12.4 GBP |sheet| stage=panel"},
	{line: "cost: £64", want: "64 GBP"},
	{line: "cost: 64.00 EUR gasket; rate 0.86; on 2026-04-09; plus vat", want: "64 EUR |gasket| rate=0.86; on=2026-04-09; plus vat"},
	{line: "cost: EUR 64.00; plus vat 19%; private", want: "64 EUR plus vat=19; private"},
	{line: "cost: 1,250.00 jig hire; share 1/4", want: "1250 GBP |jig hire| share=1/4"},
	{line: "cost: 240 wrench; as tools; share 25%", want: "240 GBP |wrench| as=tools; share=1/4"},
	{line: "cost: 138 beam; for rear-beam; surcharge 40; due 2026-05-30", want: "138 GBP |beam| for=rear-beam; surcharge=40; due=2026-05-30"},
	{line: "cost: 12,50 g", faults: []string{"bad-amount 2:7-2:12 |12,50|"}},
	{line: "cost: 64.005 g", faults: []string{"bad-amount 2:7-2:13 |64.005|"}},
	{line: "cost: -5 g", faults: []string{"bad-amount 2:7-2:9 |-5|"}},
	{line: "cost: 0 g", faults: []string{"bad-amount 2:7-2:8 |0|"}},
	{line: "cost: 1e3 g", faults: []string{"bad-amount 2:7-2:10 |1e3|"}},
	{line: "cost: beam 138.00", faults: []string{"bad-amount 2:7-2:11 |beam|"}},
	{line: "cost: 5 g; as part", faults: []string{"unknown-category 2:15-2:19 |part|"}},
	{line: "cost: 5 g; as parts spare", faults: []string{"extra-words 2:21-2:26 |spare|"}},
	{line: "cost: 5 g; for Rear Beam", faults: []string{"bad-id 2:16-2:25 |Rear Beam|"}},
	{line: "cost: 5 g; rate 0", faults: []string{"bad-number 2:17-2:18 |0|"}},
	{line: "cost: 5 g; on 2026-02-30", faults: []string{"bad-date 2:23-2:25 |30|"}},
	{line: "cost: 5 g; on 11.4.2026", faults: []string{"bad-date 2:15-2:24 |11.4.2026|"}},
	{line: "cost: 5 g; share 5/4", faults: []string{"bad-number 2:18-2:21 |5/4|"}},
	{line: "cost: 5 g; share 0", faults: []string{"bad-number 2:18-2:19 |0|"}},
	{line: "cost: 5 g; surcharge 40 EUR", faults: []string{"bad-amount 2:25-2:28 |EUR|"}},
	{line: "cost: 5 g; surcharge 0", faults: []string{"bad-amount 2:22-2:23 |0|"}},
	{line: "cost: 5 g; plus vat 200%", faults: []string{"bad-number 2:21-2:25 |200%|"}},
	{line: "cost: 5 g; due 500 km", faults: []string{"bad-date 2:16-2:22 |500 km|"}},
	{line: "cost:\n  - 5 é; as öarts", faults: []string{"unknown-category 3:13-3:18 |öarts|"}},

	{line: "parts:\n  door: arrived door; donor lark-17; worth 120", want: "arrived |door| donor=lark-17; worth=120"},
	{line: "parts:\n  door: arrived door; worth 0", faults: []string{"bad-amount 3:29-3:30 |0|"}},

	// Quotes.
	{line: "quotes:\n  curtain-left: 310.00 EUR new; from Kestrand; freight 38.00 EUR; duty 3.7%; import vat; clearance 12.00 plus vat; wait 24d; until 2026-05-01; private",
		want: "310 EUR |new| from=Kestrand; freight=38 EUR; duty=3.7; import vat; clearance=12 GBP plus; wait=24; until=2026-05-01; private"},
	{line: "quotes:\n  hub: 30.00; clearance 1,250.00 EUR, plus vat 7%", want: "30 GBP clearance=1250 EUR plus 7"},
	{line: "quotes:\n  hub: 30.00; clearance £5, plus vat", want: "30 GBP clearance=5 GBP plus"},
	{line: "quotes:\n  hub: 30.00; clearance £5 , plus vat", want: "30 GBP clearance=5 GBP plus"},
	{line: "quotes:\n  hub: 2 x 30.00; plus vat; rate 0.9; duty 0%; import vat 5%; clearance £5 plus vat 7.5%; wait 2 weeks", want: "2x30 GBP plus vat; rate=0.9; duty=0; import vat=5; clearance=5 GBP plus 7.5; wait=14"},
	{line: "quotes:\n  hub: 30.00; duty 101%", faults: []string{"bad-number 3:20-3:24 |101%|"}},
	{line: "quotes:\n  hub: 30.00; freight 12,50", faults: []string{"bad-amount 3:23-3:28 |12,50|"}},

	// Papers.
	{line: "papers:\n  road tax: six months; until 2026-12-31; warn 3 weeks; road yes; private", want: "|six months| until=2026-12-31; warn=21; road=true; private"},
	{line: "papers:\n  insurance: until 2026-12-31; warn 21 d; road no", want: "until=2026-12-31; warn=21; road=false"},
	{line: "papers:\n  insurance: until 2026-12-31; warn 21", faults: []string{"bad-number 3:37-3:39 |21|"}},
	{line: "papers:\n  insurance: until 31.12.2026; warn 2000 days", faults: []string{"bad-number 3:37-3:46 |2000 days|"}},

	// The sale's account.
	{line: "sale: deposit £300 in hand; from Karl; on 2026-07-18; private", want: "deposit 300 GBP |in hand| from=Karl; on=2026-07-18; private"},
	{line: "sale:\n  - part exchange: 1,100.00 EUR his van; into skeld-van; rate 0.86", want: "part exchange 1100 EUR |his van| into=skeld-van; rate=0.86"},
	{line: "sale: returned gearbox", want: "returned |gearbox|"},
	{line: "sale: returned", want: "returned"},
	{line: "sale: returned, 500", want: "returned 500 GBP"},
	{line: "sale: paid 2 x 50.00", want: "paid 2x50 GBP"},
	{line: "sale: paid", faults: []string{"bad-amount 2:7-2:11 |paid|"}},
	{line: "sale: paid 12,50", faults: []string{"bad-amount 2:12-2:17 |12,50|"}},
	{line: "sale: part ex 500", faults: []string{"unknown-sale 2:7-2:11 |part|"}},
	{line: "sale: 500 deposit", faults: []string{"unknown-sale 2:7-2:10 |500|"}},

	// Credit.
	{line: "credit: 12.50 refund; as refund; for hub; from Tidewell; receipt r-1.jpg; rate 1; on 2026-05-01; stage x; private",
		want: "12.5 GBP |refund| as=refund; for=hub; from=Tidewell; receipt=r-1.jpg; rate=1; on=2026-05-01; stage=x; private"},
	{line: "credit: 40; as surcharge; for rear-beam", want: "40 GBP as=surcharge; for=rear-beam"},
	{line: "credit: 40; as spares", want: "40 GBP as=spares"},
	{line: "credit: 40; as scrap", want: "40 GBP as=scrap"},
	{line: "credit: 40; as parts", faults: []string{"unknown-category 2:16-2:21 |parts|"}},
	{line: "credit: 40; plus vat", faults: []string{"unknown-clause 2:13-2:17 |plus|"}},

	// Sold.
	{line: "sold: 5200 to a neighbour; to Mrs Ottermere; on 2026-09-01; rate 0.9; private", want: "5200 GBP |to a neighbour| to=Mrs Ottermere; on=2026-09-01; rate=0.9; private"},
	{line: "sold: 5200; receipt 3", faults: []string{"unknown-clause 2:13-2:20 |receipt|"}},

	// Parts.
	{line: "parts:\n  abs-ring-left: needed reluctor ring, left rear; new; genuine; system brakes; estimate 9 14 30",
		want: "needed |reluctor ring, left rear| new; genuine; system=brakes; estimate=9/14/30"},
	{line: "parts:\n  hub: ordered hub; used; pattern; stage rear axle; estimate 40; from Tidewell; number 4F0 615; donor 2014 estate; due 2026-05-02; warranty 2027-05-02; free; photo a.jpg; photo b.jpg; private",
		want: "ordered |hub| used; pattern; stage=rear axle; estimate=40/40/40; from=Tidewell; number=4F0 615; donor=2014 estate; due=2026-05-02; warranty=2027-05-02; free; photo=a.jpg; photo=b.jpg; private"},
	{line: "parts:\n  hub: arrived; reconditioned", want: "arrived reconditioned"},
	{line: "parts:\n  hub: fitted, with new clips", want: "fitted |with new clips|"},
	{line: "parts:\n  hub: refitted", want: "refitted"},
	{line: "parts:\n  hub: returned", want: "returned"},
	{line: "parts:\n  hub: cancelled", want: "cancelled"},
	{line: "parts:\n  hub: sold", want: "sold"},
	{line: "parts:\n  hub: fited", faults: []string{"unknown-state 3:8-3:13 |fited|"}},
	{line: "parts:\n  hub: fitted; new; used", faults: []string{"repeated-clause 3:21-3:25 |used|"}},
	{line: "parts:\n  hub: fitted; genuine; pattern", faults: []string{"repeated-clause 3:25-3:32 |pattern|"}},
	{line: "parts:\n  hub: fitted; system brake", faults: []string{"unknown-system 3:23-3:28 |brake|"}},
	{line: "parts:\n  hub: needed; estimate 9 14", faults: []string{"bad-estimate 3:25-3:29 |9 14|"}},
	{line: "parts:\n  hub: needed; estimate 30 14 9", faults: []string{"bad-estimate 3:28-3:30 |14|"}},
	{line: "parts:\n  Hub left: needed", faults: []string{"bad-id 3:3-3:11 |Hub left|"}},
	{line: "parts:\n  hub-: needed", faults: []string{"bad-id 3:3-3:7 |hub-|"}},

	// Checks.
	{line: "checks:\n  wheel-retorque: done; at 91310 mi", want: "done at=91310 mi"},
	{line: "checks:\n  brake-test: passed on rollers; by Lowfield Garage; system brakes; receipt 7; photo a.jpg; private",
		want: "passed |on rollers| by=Lowfield Garage; system=brakes; receipt=7; photo=a.jpg; private"},
	{line: "checks:\n  lamp-aim: failed too high", want: "failed |too high|"},
	{line: "checks:\n  lamp-aim: failed; minor", want: "failed minor"},
	{line: "checks:\n  lamp-aim: failed; major", want: "failed major"},
	{line: "checks:\n  lamp-aim: failed; dangerous", want: "failed dangerous"},
	{line: "inspection: failed on two counts; by Marl Test Station; at 91279 mi; until 2027-07-03; receipt 991; photo a.jpg",
		want: "failed |on two counts| by=Marl Test Station; at=91279 mi; until=2027-07-03; receipt=991; photo=a.jpg"},
	{line: "inspection: passed", want: "passed"},
	{line: "inspection: done", faults: []string{"unknown-result 2:13-2:17 |done|"}},
	{line: "inspection: Marl Test Station", faults: []string{"unknown-result 2:13-2:17 |Marl|"}},
	{line: "inspection: ; by Marl", faults: []string{"unknown-result 2:13-2:13 ||"}},
	{line: "found:\n  rear-pads: dangerous 1.1.13 right rear down to the metal; system brakes", want: "{dangerous false 1.1.13} |right rear down to the metal| system=brakes"},
	{line: "found:\n  bush-worn: advisory left front; disclose", want: "{minor true } |left front| disclose"},
	{line: "found:\n  bush-worn: minor 5.3.4(a)(i), left front", want: "{minor false 5.3.4(a)(i)} |left front|"},
	{line: "found:\n  pads-thin: major 1.5 mm left", want: "{major false } |1.5 mm left|"},
	{line: "found:\n  pads-thin: major 2 wheels out of line", want: "{major false } |2 wheels out of line|"},
	{line: "found:\n  pads-thin: major 1.1.x left", faults: []string{"bad-finding 3:20-3:25 |1.1.x|"}},
	{line: "found:\n  pads-thin: major 12.1.3 left", faults: []string{"bad-finding 3:20-3:26 |12.1.3|"}},
	{line: "found:\n  pads-thin: major 1..13 left", faults: []string{"bad-finding 3:20-3:25 |1..13|"}},
	{line: "found:\n  pads-thin: major 1.1.013 left", faults: []string{"bad-finding 3:20-3:27 |1.1.013|"}},
	{line: "found:\n  pads-thin: serious 1.1.13", faults: []string{"bad-finding 3:14-3:21 |serious|"}},
	{line: "found:\n  pads: major 1.1.13", want: "{major false 1.1.13}"},
	{line: "found:\n  Rear pads: major 1.1.13", faults: []string{"bad-id 3:3-3:12 |Rear pads|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm + 90°; new; by Dag; at ride height; private", want: "60 N·m + 90° new; by=Dag; at ride height; private"},
	{line: "fasteners:\n  arm-pinch: 60Nm + 90 deg + 45° with thread lock + a washer", want: "60 N·m + 90° + 45° |with thread lock + a washer|"},
	{line: "fasteners:\n  arm-pinch: 60 Nm loctite + washer", want: "60 N·m |loctite + washer|"},
	{line: "fasteners:\n  arm-pinch: 45 lb-ft", want: "45 lbf·ft"},
	{line: "fasteners:\n  arm-pinch: 90° + 60 Nm", faults: []string{"bad-measurement 3:14-3:17 |90°|"}},
	{line: "fasteners:\n  arm-pinch: 90°", faults: []string{"bad-measurement 3:14-3:17 |90°|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm + 80 Nm", faults: []string{"bad-measurement 3:22-3:27 |80 Nm|"}},
	{line: "fasteners:\n  arm-pinch: 60 mm", faults: []string{"bad-measurement 3:14-3:19 |60 mm|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm + 3 mm", faults: []string{"bad-measurement 3:22-3:26 |3 mm|"}},
	{line: "fasteners:\n  arm-pinch: 0 Nm", faults: []string{"bad-measurement 3:14-3:18 |0 Nm|"}},
	{line: "fasteners:\n  arm-pinch: -5 Nm", faults: []string{"bad-measurement 3:14-3:19 |-5 Nm|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm +", faults: []string{"bad-measurement 3:14-3:21 |60 Nm +|"}},
	{line: "fasteners:\n  arm-pinch: tight", faults: []string{"bad-measurement 3:14-3:19 |tight|"}},
	{line: "parts:\n  pad-sensor: fitted; asks for nothing", want: "fitted asks for=[]"},
	{line: "parts:\n  pad-sensor: fitted; asks for brake-test,alignment", want: "fitted asks for=[brake-test alignment]"},
	{line: "checks:\n  lamp-aim: pass", faults: []string{"unknown-result 3:13-3:17 |pass|"}},
	{line: "checks:\n  lamp-aim: done; at 5 mm", faults: []string{"bad-distance 3:22-3:26 |5 mm|"}},

	// Readings.
	{line: "readings:\n  rear-disc-left: 8.7 mm; min 8.0 mm", want: "8.7 mm min=8.0 mm"},
	{line: "readings:\n  disc: 8.7 mm inner face; max 9; minor", want: "8.7 mm |inner face| max=9 mm; minor"},
	{line: "readings:\n  toe: -0.5 °; within -1..0.5; dangerous; system steering; private", want: "-0.5° within=-1°..0.5°; dangerous; system=steering; private"},
	{line: "readings:\n  bolt: 112 N·m; spec 110 ±5 N·m; major", want: "112 N·m spec=105 N·m..115 N·m; major"},
	{line: "readings:\n  bolt: 112 Nm; spec 110 +-5", want: "112 N·m spec=105 N·m..115 N·m"},
	{line: "readings:\n  volt: 12.6V; spec 12.5 ±2%", want: "12.6 V spec=12.250 V..12.750 V"},
	{line: "readings:\n  disc: 8.7 mm; min 20 N·m", faults: []string{"bad-measurement 3:21-3:27 |20 N·m|"}},
	{line: "readings:\n  disc: 8.7; min 8", faults: []string{"bad-measurement 3:9-3:12 |8.7|"}},
	{line: "readings:\n  disc: 8.7 mm; minor; major", faults: []string{"repeated-clause 3:24-3:29 |major|"}},

	// Remaining.
	{line: "remaining:\n  rear axle: 120 180 300", want: "120/180/300"},
	{line: "remaining:\n  rear axle: 180; hours 4 6.5 9", want: "180/180/180 hours=240/390/540"},
	{line: "remaining:\n  paint: nothing more to do", want: "0/0/0 |more to do|"},
	{line: "remaining:\n  paint: 40 for lacquer", want: "40/40/40 |for lacquer|"},
	{line: "remaining:\n  paint: 40 50", faults: []string{"bad-estimate 3:10-3:15 |40 50|"}},
	{line: "remaining:\n  paint: lots", faults: []string{"bad-estimate 3:10-3:14 |lots|"}},

	// Odometer, private, date, title, stage.
	{line: "odometer: 91252 mi", want: "91252 mi"},
	{line: "odometer: 12 km; new cluster", want: "12 km new cluster"},
	{line: "odometer: 91252", faults: []string{"bad-distance 2:11-2:16 |91252|"}},
	{line: "private: yes", want: "true"},
	{line: "private: true", faults: []string{"bad-yes-no 2:10-2:14 |true|"}},
	{line: "title: Beam out; at last: done", want: "|Beam out; at last: done|"},
	{line: "stage: rear axle; or so", want: "|rear axle; or so|"},

	// Order is free; a clause twice, an unknown one, a value missing or too many.
	{line: "cost: 5 g; private; as paint; on 2026-01-02", want: "5 GBP |g| private; as=paint; on=2026-01-02"},
	{line: "cost: 5 g ; ;as paint;", want: "5 GBP |g| as=paint"},
	{line: "cost: 5 g; as paint; as paint", faults: []string{"repeated-clause 2:22-2:24 |as|"}},
	{line: "cost: 5 g; plus vat; plus vat 5%", faults: []string{"repeated-clause 2:22-2:30 |plus vat|"}},
	{line: "cost: 5 g; form Tidewell", faults: []string{"unknown-clause 2:12-2:16 |form|"}},
	{line: "cost: 5 bolts; nuts and washers", faults: []string{"unknown-clause 2:16-2:20 |nuts|"}},
	{line: "cost: 5 g; plus vatt", faults: []string{"unknown-clause 2:12-2:21 |plus vatt|"}},
	{line: "cost: 5 g; From Tidewell", faults: []string{"unknown-clause 2:12-2:16 |From|"}},
	{line: "cost: 5 g; from", faults: []string{"clause-value 2:12-2:16 |from|"}},
	{line: "cost: 5 g; private person", faults: []string{"clause-value 2:20-2:26 |person|"}},
	{line: "cost: ; as paint", faults: []string{"bad-amount 2:7-2:7 ||"}},
	{line: "cost: 5 g; form T; as part; on x", faults: []string{"unknown-clause 2:12-2:16 |form|", "unknown-category 2:23-2:27 |part|", "bad-date 2:32-2:33 |x|"}},
}

func TestLines(t *testing.T) {
	for _, c := range lineCases {
		n := sessionOf(c.line)
		wantFaults(t, c.line, n, c.faults...)
		if len(n.Lines) != 1 {
			t.Errorf("%s: %d lines", c.line, len(n.Lines))
			continue
		}
		l := n.Lines[0]
		if l.Bad != (len(c.faults) > 0) {
			t.Errorf("%s: bad is %v", c.line, l.Bad)
		}
		if got := lineOf(l); !l.Bad && got != c.want {
			t.Errorf("%s\nread as %s\nwant    %s", c.line, got, c.want)
		}
		checkLineSpans(t, n, l)
	}
}

// checkLineSpans holds every span of a line to the text it was read from.
func checkLineSpans(t *testing.T, n *Note, l *Line) {
	t.Helper()
	at := l.Text.Whole().Start
	for _, c := range l.Clauses {
		arg := c.Arg.Whole()
		if c.Span.Start < at || arg.Start < c.Span.Start || arg.End > c.Span.End || c.Span.End > l.Text.Whole().End {
			t.Errorf("%s: clause %s stands from %d to %d", l.Text.S, c.Word, c.Span.Start, c.Span.End)
		}
		if !strings.HasPrefix(c.Span.Text(), c.Word) || arg.Text() != c.Arg.S {
			t.Errorf("%s: clause %s has the span %q with %q", l.Text.S, c.Word, c.Span.Text(), arg.Text())
		}
		at = c.Span.End
	}
	for _, x := range []Text{l.Text, l.Words()} {
		if x.Whole().Text() != x.S {
			t.Errorf("%s: %q stands at %q", l.Text.S, x.S, x.Whole().Text())
		}
	}
	if !strings.HasPrefix(l.Text.S, l.HeadSpan().Text()) && !l.Bad && l.Kind.Head != nil {
		t.Errorf("%s: its head stands at %q", l.Text.S, l.HeadSpan().Text())
	}
}

// cardCases are lines of the job card, as lineCases are of sessions.
var cardCases = []struct {
	line, want string
	faults     []string
}{
	{line: "donors:\n  lark-17: 580.00 EUR hatchback, hit behind; category B; flood; worth 300; on 2026-02-01; plus vat 20%; rate 0.86; from an auction; receipt 7",
		want: "580 EUR |hatchback, hit behind| category=B; flood; worth=300; on=2026-02-01; plus vat=20; rate=0.86; from=an auction; receipt=7"},
	{line: "donors:\n  Lark 17: 580.00", faults: []string{"bad-id 3:3-3:10 |Lark 17|"}},
	{line: "donors:\n  lark-17: hatchback", faults: []string{"bad-amount 3:12-3:21 |hatchback|"}},
	{line: "build: Halden; Fjord", want: "|Halden; Fjord|"},
	{line: "currency: GBP", want: "GBP"},
	{line: "currency: gbp", faults: []string{"unknown-currency 2:11-2:14 |gbp|"}},
	{line: "currency: pounds", faults: []string{"unknown-currency 2:11-2:17 |pounds|"}},
	{line: "vat: 20%", want: "20"},
	{line: "vat: 20", faults: []string{"bad-number 2:6-2:8 |20|"}},
	{line: "rates:\n  EUR: 0.86", want: "0.86"},
	{line: "rates:\n  EURO: 0.86", faults: []string{"unknown-currency 3:3-3:7 |EURO|"}},
	{line: "resale: 4600 5200 5600", want: "4600/5200/5600"},
	{line: "resale: 5200", want: "5200/5200/5200"},
	{line: "resale: 5600 5200 4600", faults: []string{"bad-estimate 2:14-2:18 |5200|"}},
	{line: "resale: 0", faults: []string{"bad-estimate 2:9-2:10 |0|"}},
	{line: "profit: 800", want: "800"},
	{line: "profit: 0", want: "0"},
	{line: "profit: £1,800.50", want: "1800.5"},
	{line: "confidence: 90%", want: "90"},
	{line: "confidence: 100%", faults: []string{"bad-number 2:13-2:17 |100%|"}},
	{line: "bid increment: 25", want: "25"},
	{line: "bid increment: 0", faults: []string{"bad-amount 2:16-2:17 |0|"}},
	{line: "stages:\n  buying: budget 1500; purchase", want: "budget=1500/1500/1500; purchase"},
	{line: "stages:\n  rear axle: beam and brakes; budget 260 340 520; system suspension", want: "|beam and brakes| budget=260/340/520; system=suspension"},
	{line: "stages:\n  paint: lacquer", want: "|lacquer|"},
	{line: "stages:\n  paint: lacquer; budgte 20", faults: []string{"unknown-clause 3:19-3:25 |budgte|"}},
	{line: "due checks:\n  tow-test: after electrical; major; because the socket feeds the trailer's brake lamps",
		want: "after=electrical; major; because=the socket feeds the trailer's brake lamps"},
	{line: "due checks:\n  tow-test: lamps; after electrical, lighting; dangerous; distance 30 mi", want: "|lamps| after=electrical+lighting; dangerous; distance=at least 30 mi"},
	{line: "due checks:\n  tow-test: after electrical; distance 40 to 80 km", want: "after=electrical; distance=40 to 80 km"},
	{line: "damage:\n  left side: B-pillar and sill folded; system structure, restraints; fired curtain-left; fired belt-left; photo a.jpg",
		want: "|B-pillar and sill folded| system=structure+restraints; fired=curtain-left; fired=belt-left; photo=a.jpg"},
	{line: "damage:\n  water: to the seat rails; flood", want: "|to the seat rails| flood"},
	{line: "damage:\n  front: hit; system bumpers", faults: []string{"unknown-system 3:22-3:29 |bumpers|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm + 90°; of arm-left; single use; at ride height", want: "60 N·m + 90° of=arm-left; single use; at ride height"},
	{line: "fasteners:\n  arm-pinch: 60 Nm; of arm-left; ±4%; system suspension", want: "60 N·m of=arm-left; ±=57.6 to 62.40 N·m; system=suspension"},
	{line: "fasteners:\n  arm-pinch: 60 Nm; of arm-left; +- 3 Nm", want: "60 N·m of=arm-left; +-=57 to 63 N·m"},
	{line: "fasteners:\n  arm-pinch: 60 Nm; of arm-left; ± 3 mm", faults: []string{"bad-measurement 3:36-3:40 |3 mm|"}},
	{line: "fasteners:\n  arm-pinch: 60 Nm; of arm-left; ±4%; +-5%", faults: []string{"repeated-clause 3:39-3:41 |+-|"}},
	{line: "due checks:\n  tow-test: after electrical; minor", want: "after=electrical; minor"},
	{line: "due checks:\n  tow-test: after electrics", faults: []string{"unknown-system 3:19-3:28 |electrics|"}},
	{line: "due checks:\n  tow-test: after brakes, electrics", faults: []string{"unknown-system 3:27-3:36 |electrics|"}},
	{line: "public:\n  money: work", want: "|work|"},
	{line: "vehicle:\n  make: Halden; Fjord: 2.0", want: "|Halden; Fjord: 2.0|"},
	{line: "fees:\n  buyer's fee: 75 to 500, 12% above; plus vat", want: "[{75 0 500 false} {0 12 0 true}] plus vat"},
	{line: "fees:\n  delivery: 120; plus vat 5%", want: "[{120 0 0 true}] plus vat=5"},
	{line: "stages:\n  body: budget 400; hours 30 45 70", want: "budget=400/400/400; hours=1800/2700/4200"},
	{line: "stages:\n  body: doors and wings; hours 3h30", want: "|doors and wings| hours=210/210/210"},
	{line: "stages:\n  body: hours 45 30 70", faults: []string{"bad-estimate 3:18-3:20 |30|"}},
	{line: "stages:\n  body: hour 45", faults: []string{"unknown-clause 3:9-3:13 |hour|"}},
	{line: "hourly: £8.00", want: "8"},
	{line: "hourly: 0", faults: []string{"bad-amount 2:9-2:10 |0|"}},
	{line: "holding:\n  storage: 10.00 a week", want: "10/1"},
	{line: "holding:\n  storage: £1 a day, in Dag's yard", want: "7/1 |in Dag's yard|"},
	{line: "holding:\n  insurance: 26.00 a month", want: "6/1"},
	{line: "holding:\n  tax: 52 per year", want: "1/1"},
	{line: "holding:\n  tax: 52/Year", want: "1/1"},
	{line: "holding:\n  storage: 10.00", faults: []string{"bad-amount 3:12-3:17 |10.00|"}},
	{line: "holding:\n  storage: 10.00 a moth", faults: []string{"bad-amount 3:20-3:24 |moth|"}},
	{line: "holding:\n  storage: 10.00 a fortnight", faults: []string{"bad-amount 3:20-3:29 |fortnight|"}},
	{line: "holding:\n  storage: 0 a week", faults: []string{"bad-amount 3:12-3:13 |0|"}},
	{line: "holding:\n  storage: ten a week", faults: []string{"bad-amount 3:12-3:15 |ten|"}},
	{line: "weeks: 14 18.5 26", want: "14/18.5/26"},
	{line: "weeks: 18 weeks", want: "18/18/18"},
	{line: "weeks: 18 14 26", faults: []string{"bad-estimate 2:11-2:13 |14|"}},
	{line: "weeks: 0", faults: []string{"bad-estimate 2:8-2:9 |0|"}},
	{line: "weeks: 14 18", faults: []string{"bad-estimate 2:8-2:13 |14 18|"}},
	{line: "weeks: 14 18 26ish", faults: []string{"bad-estimate 2:16-2:19 |ish|"}},
	{line: "pace: 6h a week", want: "360/1"},
	{line: "pace: 1h30 a day, evenings", want: "630/1 |evenings|"},
	{line: "pace: 26h per month", want: "360/1"},
	{line: "pace: 6h", faults: []string{"bad-duration 2:7-2:9 |6h|"}},
	{line: "pace: none", faults: []string{"bad-duration 2:7-2:11 |none|"}},
	{line: "pace: 0h a week", faults: []string{"bad-duration 2:7-2:16 |0h a week|"}},
	{line: "pace: 6 a week", faults: []string{"bad-duration 2:7-2:8 |6|"}},
	{line: "pace: 25h a day", faults: []string{"bad-duration 2:7-2:16 |25h a day|"}},
	{line: "pace: 6h a wek", faults: []string{"bad-duration 2:12-2:15 |wek|"}},
	{line: "away: 2026-07-01..2026-07-14", want: "{2026-07-01 2026-07-14}"},
	{line: "away: 2026-07-01 to 2026-07-14", want: "{2026-07-01 2026-07-14}"},
	{line: "away: 2026-07-01..", faults: []string{"bad-date 2:7-2:19 |2026-07-01..|"}},
	{line: "away: ..2026-07-14", faults: []string{"bad-date 2:7-2:19 |..2026-07-14|"}},
	{line: "away: 2026-07-01", faults: []string{"bad-date 2:7-2:17 |2026-07-01|"}},
	{line: "away: 2026-07-14..2026-07-01", faults: []string{"bad-date 2:7-2:29 |2026-07-14..2026-07-01|"}},
	{line: "away: 2026-07-01..2026-13-14", faults: []string{"bad-date 2:24-2:26 |13|"}},
	{line: "worst: 1 in 10", want: "1 in 10"},
	{line: "worst: Hardly ever", want: "hardly ever"},
	{line: "worst: 1 in 20", faults: []string{"bad-estimate 2:8-2:15 |1 in 20|"}},
	{line: "offers:\n  as it stands: 2,500.00 cash; from Dag; until 2026-06-01", want: "2500/2500/2500 |cash| from=Dag; until=2026-06-01"},
	{line: "offers:\n  for parts: 1800 2200 2600; hours 40", want: "1800/2200/2600 hours=2400/2400/2400"},
	{line: "offers:\n  for parts: 2200 1800 2600", faults: []string{"bad-estimate 3:19-3:23 |1800|"}},
	{line: "offers:\n  for parts: 0", faults: []string{"bad-estimate 3:14-3:15 |0|"}},
	{line: "offers:\n  for parts: a lot", faults: []string{"bad-estimate 3:14-3:15 |a|"}},
	{line: "offers:\n  for parts: 2200; until 2026-13-01", faults: []string{"bad-date 3:31-3:33 |13|"}},
}

func TestCardLines(t *testing.T) {
	for _, c := range cardCases {
		n := readNote(Card, "---\n"+c.line+"\n---\n")
		wantFaults(t, c.line, n, c.faults...)
		if len(n.Lines) != 1 {
			t.Errorf("%s: %d lines", c.line, len(n.Lines))
			continue
		}
		if got := lineOf(n.Lines[0]); len(c.faults) == 0 && got != c.want {
			t.Errorf("%s\nread as %s\nwant    %s", c.line, got, c.want)
		}
		checkLineSpans(t, n, n.Lines[0])
	}
}

// Faults carry the words to choose from, so that the nearest can be named.
func TestFaultsKnowTheRightWords(t *testing.T) {
	for _, c := range []struct {
		line, near string
	}{
		{"cost: 5 g; form Tidewell", "from"}, {"cost: 5 g; as prats", "parts"}, {"credit: 5 g; as refnud", "refund"},
		{"parts:\n  hub: fited", "fitted"}, {"parts:\n  hub: fitted; system breaks", "brakes"}, {"checks:\n  x: pased", "passed"},
		{"time: 3h; hand 2", "hands"}, {"readings:\n  x: 3 mm; mni 2", "min"},
	} {
		n := sessionOf(c.line)
		if len(n.Faults) == 0 || !slices.Contains(n.Faults[0].Near, c.near) {
			t.Errorf("%s: %q does not offer %q", c.line, faultsOf(n), c.near)
		}
	}
}

// Any line may say `sure`, those that have no other clauses too. It is no part of what they say.
func TestSure(t *testing.T) {
	for line, words := range map[string]string{
		"title: He said; perhaps ; sure": "He said; perhaps", "stage: body;sure": "body", "odometer: 91252 mi; sure": "", "time: 3h beam; sure; hands 2": "beam",
		"cost: 5 g; sure": "g", "parts:\n  hub: fitted hub; sure": "hub", "checks:\n  x: passed well; sure": "well", "readings:\n  x: 3 mm new; sure": "new",
	} {
		n := sessionOf(line)
		if l := n.Lines[0]; len(n.Faults) > 0 || !l.Has("sure") || l.Words().S != words || strings.Contains(l.Kind.Key, "title") && l.Text.S != words {
			t.Errorf("%s: %q, %v", line, l.Words().S, n.Faults)
		}
	}
	if n := sessionOf("title: Make sure"); n.Lines[0].Has("sure") {
		t.Error("words are no clause")
	}
}

// Every clause of every kind is read somewhere in the tables above.
func TestEveryClauseIsTested(t *testing.T) {
	var all strings.Builder
	for _, c := range lineCases {
		all.WriteString(strings.Split(c.line, ":")[0] + " " + c.want + "\n")
	}
	for _, c := range cardCases {
		all.WriteString(strings.Split(c.line, ":")[0] + " " + c.want + "\n")
	}
	for _, kinds := range [][]*Kind{Session, Card} {
		for _, k := range kinds {
			for _, c := range k.Clauses {
				found := c.Word == "sure" // see TestSure
				for line := range strings.Lines(all.String()) {
					found = found || strings.HasPrefix(line, k.Key+" ") && strings.Contains(line, " "+c.Word)
				}
				if !found {
					t.Errorf("no case has %q on a line of %s", c.Word, k.Key)
				}
			}
		}
	}
}

// Without a currency on the card amounts are read, and only the card is at fault.
func TestLinesWithoutCurrency(t *testing.T) {
	n := Open(newTestFile("---\ncost:\n  - 12.50 g\n  - £3; surcharge 1.25\n  - 3 EUR\n---\n"))
	n.Read(Session, money.Currency{})
	wantFaults(t, "no currency", n)
	if len(n.Lines) != 3 {
		t.Errorf("%d lines", len(n.Lines))
	}
}

// A head that is not understood is the one mistake: what depends on it is not judged.
func TestOneMistakeOneMessage(t *testing.T) {
	wantFaults(t, "reading", sessionOf("readings:", "  disc: 8.7 mn; min 8.0; within 3..4; spec 3 ±1"), "bad-measurement 3:13-3:15 |mn|")
}
