package check

import (
	"strings"
	"testing"
)

// What of a description was meant to count, and what only looks like it.
func TestHalfRead(t *testing.T) {
	for key, lines := range map[string]map[string]string{
		"time": {
			"4h 30m trim off, Del helped 2 hrs": "2 hrs", "1h beam, 30m sweeping": "30m", "1h beam, then 1h 20m wiring": "1h 20m", "1h beam (2 hours wiring)": "2 hours", "1h beam and 30m sweeping": "30m", "1h beam, 30m": "30m",
			"2h beam, another half an hour more": "an hour", "2 h 30 stripping": "30", "1 hour 30 wiring, loom": "30",
			"2h, 30m sweeping": "30m", "2h, 30m drying": "", "2h, bumper off": "", "2h, 5m roll cut": "",
			"2h primer, 24h to dry": "", "2h primer, 30m drying": "", "2h filler, 12h hardening": "", "1h glue, 24h on the clamp": "", "3h filler, 10 minutes a coat": "", "2h hose, 5m roll cut": "", "2h hose, 3m of it": "", "2h hose, 30 m long": "",
			"3h 40 bolts": "", "2h 40 seized bolts": "", "2h 20 mm hole": "", "2h wiring, 12 volt hunting": "", "7h filler, an hour of lunch between": "", "2h before lunch": "", "2h less than planned": "", "3h filler, sanded 2h later": "",
		},
		"cost": {
			"12.00 hose (4.99 postage on top)": "4.99", "12.00 hose + 3.50 postage": "+ 3.50", "12.00 hose, 3.50 postage": "3.50", "12.00 hose (plus 3.50 post)": "plus 3.50", "£20 - £5 off": "- £5", "20.00 less 5.00 discount": "less 5.00", "3 x 4.99 + £3 postage": "+ £3", "20.00 and 5.00 postage": "and 5.00",
			"12.00 clips £7.00 wire": "£7.00", "£6.50 sandpaper, £4.20 tape": "£4.20", "£6.50, £4.20 tape": "£4.20", "12.00 clips / 7.00 wire": "/ 7.00", "12 + 7 clips and wire": "+ 7", "12.00 / 7 clips": "/ 7", "£12 clips, wire £7": "£7", "6.50 tape €4 glue": "€4",
			"£2 060 small van": "060", "2 060 small van": "060", "1 265, tyre": "265", "1 250 000 lottery": "250 000", "2,060 plus 180 fee, small van": "plus 180", "12 and 7 clips": "and 7", "12 & 7 clips": "& 7",
			"1450 car, 165 fee, 60 trailer": "165", "38 lamp and 12 postage": "12", "38 lamp plus 6 post": "6",
			"2 100 mm hoses": "", "2 x 40 320 grit": "", "12.00 320 grit": "", "1,200 320 grit": "", "12 and 13 mm sockets": "", "12 205/55 tyre": "", "12 3200 grit": "", "12 320-grit discs": "",
			"12.00 clips, saved £7.00": "", "12.00 lamps (4 at £3.00 each)": "", "12.00 mount, £14.50 elsewhere": "", "2 x 6.00 clips = £12.00": "", "12.00 mount, quoted £20": "", "12.00 clips, £3.00 each": "", "12.00 hose 14.05/15.05": "", "42.00 cylinder, 19.05 bore": "",
			"4 tyres @ 32.00": "32.00", "62 miles x 0.45 fetching": "0.45", "4 bolts 12.00": "12.00", "4.5 litres brake fluid £11.00": "£11.00", "1 tyre £70": "£70", "10 bolts (4.20)": "4.20", "40 hob 60.00": "60.00",
			"12.00 hose plus tax": "plus tax", "12.00 hose net of VAT": "net of VAT", "12.50 + vat oil": "+ vat", "12.50 oil ex. vat": "ex. vat", "12.00 hose + 20% VAT": "+ 20%", "29.99 minus 10% trade, bulb": "minus 10%", "12.50 oil + vat; plus vat": "", "12.00 hose without tax": "without tax",
			"36 storage 3 days @ 12": "", "20 bush 19.05 bore": "", "15 euro pallet": "", "20 hire before vat rise": "", "12.00 cargo net": "", "12.00 hose incl. VAT": "", "12.00 ex tax office lamp": "", "12.00 plus tax disc holder": "", "12.00 hose, VAT paid": "",
			"12.00 hose incl. 3.50 postage": "", "12.00 hose, 3.50 of it postage": "", "12.50 - 0.80 mm wire": "", "12.50 and a hose": "", "40.00 hob 60.00": "", "40 hob (RRP 60.00)": "", "40 hob, was £60": "", "20 tracker part no 44.21": "", "20 deposit of £140": "",
			"60 diesel, 41.20 litres": "", "12 cable 2.50 mm": "", "18 oil 5.00 litre can": "", "9 O-ring 12.37 mm": "", "9 bolts M8 x 20": "", "12 M10 x 1.25 bolts": "", "20 deposit on a £140 gearbox": "", "30 timber 2 x 4": "", "6.40 25 M8 bolts": "", "64 hose at 9:30": "",
		},
		"parts": {
			"hose: needed hose £20": "£20", "hose: needed hose (£20); new": "£20", "hose: needed hose £10 20 30": "£10 20 30", "hose: needed hose £20; estimate 18": "", "hose: needed £20 hose like the old one": "", "hose: needed hose like no 20.00": "", "hose: needed hose 20": "",
		},
		"readings": {
			"draw: 0.78 A should be under 0.05": "should be under 0.05", "disc: 8 mm (10 minimum)": "10 minimum", "disc: 8 mm too low": "too low", "disc: 8 mm limit is 10 mm": "limit is 10", "disc: 8 mm over 7.5": "over 7.5",
			"disc: 8 mm; min 7 mm": "", "disc: 8 mm at its thinnest": "", "disc: 8 mm, was 9": "", "disc: 4.1 mm max play felt": "", "disc: 8 mm under the pad": "", "disc: 8 mm min 7 mm; max 9 mm": "",
		},
	} {
		for line, want := range lines {
			if key == "parts" || key == "readings" {
				line = "\n  " + line
			}
			got := ""
			for _, p := range proofread(t, folder("---\nstage: body\n"+key+": "+line+"\n---\n")) {
				if p.Check == "half-read" {
					got = p.Span.Text()
				}
			}
			if got != want {
				t.Errorf("%s: %q left out, want %q", strings.TrimSpace(line), got, want)
			}
		}
	}
}
