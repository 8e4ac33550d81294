package money

import (
	"strings"
	"testing"

	"guidecoat/journal/source"
)

// inBounds checks what every complaint must keep: a place within the text, and words.
func inBounds(t *testing.T, text string, bad *source.Malformed) {
	t.Helper()
	if bad == nil {
		return
	}
	if bad.Start < 0 || bad.Start > bad.End || bad.End > len(text) || bad.Why == "" || bad.Help == "" {
		t.Errorf("%q: complaint out of bounds or without words: %+v", text, *bad)
	}
}

var readable = []struct {
	text, quantity, number, code, symbol, rest string
}{
	{"64.00", "", "64.00", "", "", ""},
	{"64.5", "", "64.5", "", "", ""},
	{"138.00 rear axle beam, used", "", "138", "", "", " rear axle beam, used"},
	{"1,250.00", "", "1250", "", "", ""},
	{"1250 125.5 is its number", "", "1250", "", "", " 125.5 is its number"}, // no thousands
	{"1,250", "", "1250", "", "", ""},
	{"123,456,789,012.00", "", "123456789012", "", "", ""},
	{"0.5", "", "0.5", "", "", ""},
	{"£64", "", "64", "", "£", ""},
	{"£ 64 beam", "", "64", "", "£", " beam"},
	{"€1,250.00", "", "1250", "", "€", ""},
	{"$5 lamp", "", "5", "", "$", " lamp"},
	{"kr 500", "", "500", "", "kr", ""},
	{"kr\t500", "", "500", "", "kr", ""},
	{"GBP 64.00", "", "64", "GBP", "", ""},
	{"GBP64.00", "", "64", "GBP", "", ""},
	{"64.00 EUR", "", "64", "EUR", "", ""},
	{"64.00EUR hub", "", "64", "EUR", "", " hub"},
	{"£64 GBP", "", "64", "GBP", "£", ""},
	{"$64 CAD", "", "64", "CAD", "$", ""},
	{"EUR 64 EUR", "", "64", "EUR", "", ""},
	{"kr 500 SEK", "", "500", "SEK", "kr", ""},
	{"3 x 4.99", "3", "4.99", "", "", ""},
	{"3x4.99 bolts", "3", "4.99", "", "", " bolts"},
	{"3x 4.99", "3", "4.99", "", "", ""},
	{"3 × 4.99", "3", "4.99", "", "", ""},
	{"3×4.99", "3", "4.99", "", "", ""},
	{"0.75 x 12.40", "0.75", "12.40", "", "", ""},
	{"2 x £6.49 grease", "2", "6.49", "", "£", " grease"},
	{"2 x 6.49 EUR", "2", "6.49", "EUR", "", ""},
	{"2 x EUR 6.49", "2", "6.49", "EUR", "", ""},
	{"1,000 x 0.125", "1000", "0.125", "", "", ""},
	{"64.00 ABS sensor", "", "64", "", "", " ABS sensor"},
	{"64.00 ALL seals", "", "64", "ALL", "", " seals"},
	{"64.00 all seals", "", "64", "", "", " all seals"},
	{"64.00 ALL-weather mats", "", "64", "", "", " ALL-weather mats"},
	{"64.00 EUROPE map", "", "64", "", "", " EUROPE map"},
	{"64.00 X5 bumper", "", "64", "", "", " X5 bumper"},
	{"64.00 x-ray of the weld", "", "64", "", "", " x-ray of the weld"},
	{"64.00 xenon bulb", "", "64", "", "", " xenon bulb"},
	{"9 240 grit discs", "", "9", "", "", " 240 grit discs"},
	{"64.00 kreuz", "", "64", "", "", " kreuz"},
	{"12.50 10 mm bolts", "", "12.50", "", "", " 10 mm bolts"},
	{"64.00 3 m hose", "", "64", "", "", " 3 m hose"},
	{"64 3 m hose", "", "64", "", "", " 3 m hose"},
	{"64 15mm socket", "", "64", "", "", " 15mm socket"},
	{"64 10-12 spanner", "", "64", "", "", " 10-12 spanner"},
	{"64 EUR 12 bolts", "", "64", "EUR", "", " 12 bolts"},
	{"3 x 4.99 10 mm bolts", "3", "4.99", "", "", " 10 mm bolts"},
	{"12.50 @ the coast", "", "12.50", "", "", " @ the coast"},
	{"2 @ 12.50 seals", "2", "12.50", "", "", " seals"},
	{"2@£12.50", "2", "12.50", "", "£", ""},
	{"20 off the shelf", "", "20", "", "", " off the shelf"},
	{"12.50 *new* hose", "", "12.50", "", "", " *new* hose"},
	{"12.50 X mark", "", "12.50", "", "", " X mark"},
	{"12.50 p-clips", "", "12.50", "", "", " p-clips"},
	{"12.50 c clips", "", "12.50", "", "", " c clips"},
	{"50 pins", "", "50", "", "", " pins"},
}

func TestScan(t *testing.T) {
	for _, c := range readable {
		w, bad := Scan(c.text)
		if bad != nil {
			t.Errorf("Scan(%q): %s", c.text, bad.Why)
			continue
		}
		isDec(t, c.text, w.Number, c.number)
		if w.HasQuantity != (c.quantity != "") {
			t.Errorf("Scan(%q): HasQuantity is %v", c.text, w.HasQuantity)
		} else if w.HasQuantity {
			isDec(t, "quantity of "+c.text, w.Quantity, c.quantity)
		}
		if w.Code != c.code || w.Symbol != c.symbol || c.text[w.End:] != c.rest {
			t.Errorf("Scan(%q) = code %q, symbol %q, rest %q", c.text, w.Code, w.Symbol, c.text[w.End:])
		}
		if unit := c.text[w.UnitStart:w.UnitEnd]; unit != c.code && unit != c.symbol {
			t.Errorf("Scan(%q): the unit stands at %q", c.text, unit)
		}
		if number := strings.ReplaceAll(c.text[w.NumberStart:w.NumberEnd], ",", ""); !dec(number).Equal(w.Number) {
			t.Errorf("Scan(%q): the number stands at %q", c.text, number)
		}
	}
}

var unreadable = []struct{ text, at, why, help string }{
	{"", "", "begin with a number", "64.00"},
	{"beam 64.00", "beam", "begin with a number", "64.00"},
	{"£", "£", "no number follows the currency", "£ 64.00"},
	{"EUR pallets", "EUR pallets", "no number follows the currency", "EUR 64.00"},
	{"gbp 64", "gbp", "not the code of a currency", "GBP"},
	{"ABC 64", "ABC", "not the code of a currency", "ISO 4217"},
	{"1 250.00 jig", "1 250.00", "a space stands", "1,250.00"},
	{"1 250", "1 250", "a space stands", "1,250"},
	{"125 50 jig", "125 50", "a space stands", "125.50"},
	{"12,50", "12,50", "wrong places", "12.50"},
	{"12,50 bolts", "12,50", "wrong places", "12.50"},
	{"1,2500", "1,2500", "wrong places", ""},
	{"1250,000", "1250,000", "wrong places", "1,250.00"},
	{"1.250,00", "1.250,00", "wrong places", `"1,250.00"`},
	{"12.250.000,50", "12.250.000,50", "wrong places", `"12,250,000.50"`},
	{"1.25,00", "1.25,00", "wrong places", "12.50"},
	{"1.2.3", "1.2.3", "wrong places", "12.50"},
	{"1 250.00 beam", "1 250.00", "a space stands inside", "1,250.00"},
	{"1 250", "1 250", "a space stands inside", "1,250"},
	{"0", "0", "zero", "leave the line out"},
	{"3 x 0.00", "0.00", "zero", ""},
	{"0 x 4.99", "0", "the quantity is zero", "3 x 4.99"},
	{"-5 refund", "-5", "negative", "`credit`"},
	{"\u22125", "\u22125", "negative", "`credit`"},
	{"-£12", "-£12", "negative", "`credit`"},
	{"£-12", "-12", "negative", "`credit`"},
	{"3 x -4.99", "-4.99", "negative", "`credit`"},
	{"+5", "+5", "plus sign", "without"},
	{"1e3", "1e3", "exponent", "1000"},
	{"1E-3 x", "1E-3", "exponent", "1000"},
	{"0123", "0123", "begins with a zero", "without zeros"},
	{"00012", "00012", "begins with a zero", "without zeros"},
	{"0,123", "0,123", "begins with a zero", "without zeros"},
	{".5", ".5", "before the point", "0.5"},
	{"5.", "5.", "after the point", "5"},
	{"5. beam", "5.", "after the point", "5"},
	{"1234567890123", "1234567890123", "more than 12 digits", ""},
	{"1.1234567890123", "1.1234567890123", "more than 12 decimals", ""},
	{"64.00 €", "€", "after the number", "€64.00"},
	{"64€", "€", "after the number", "€64"},
	{"500 kr paint", "kr", "after the number", "as in 500 SEK"},
	{"500kr", "kr", "after the number", "as in 500 SEK"},
	{"12.00 £3 off", "£3", "a second amount", "a word before the second"},
	{"12.00£3 off", "£3", "a second amount", "a word before the second"},
	{"12.00 £ hose", "£", "after the number", "£12.00"},
	{"64.00kg", "kg", "no part of an amount", "begin with the amount"},
	{"8mm pipe", "mm", "no part of an amount", "begin with the amount"},
	{"5\" pipe", "\"", "no part of an amount", "begin with the amount"},
	{"5' pipe", "'", "no part of an amount", "begin with the amount"},
	{"3m hose", "m", "no part of an amount", "begin with the amount"},
	{"12volt pump", "volt", "no part of an amount", "begin with the amount"},
	{"3h40 hose", "h40", "no part of an amount", "begin with the amount"},
	{"12.00/2 hose", "/2", "no part of an amount", "share 1/2"},
	{"1/3 x 12.00 tin", "/3", "no part of an amount", "share 1/3"},
	{"2/3 x 12.00 tin", "/3", "no part of an amount", "share 2/3"},
	{"12/2 hose", "/2", "no part of an amount", "share 1/2"},
	{"12.00/m hose", "/m", "no part of an amount", "such as 3 x 12.00"},
	{"£12.50/£3 hose", "/£3", "no part of an amount", "begin with the amount"},
	{"12:50 hose", ":50", "no part of an amount", "write 12.50 if"},
	{"£1-50 hose", "-50", "no part of an amount", "write £1.50 if"},
	{"12½ hose", "½", "no part of an amount", "write 12.50"},
	{"1'200 hose", "'200", "no part of an amount", "write 1200 or 1,200"},
	{"1’200.50 hose", "’200.50", "no part of an amount", "write 1200.50 or 1,200.50"},
	{"12k engine", "k", "no part of an amount", "write 12000"},
	{"£1.2k engine", "k", "no part of an amount", "write £1200"},
	{"12.00+3.50 hose", "+3.50", "no part of an amount", "write the sum"},
	{"2026-10-01 hose", "-10-01", "no part of an amount", "a date is a clause"},
	{"64.00beam, used", "beam,", "straight into", "write a space after"},
	{"64.00ABS", "ABS", "straight into", "space"},
	{"64.00, beam", ",", "a sign stands", "write a space instead of \",\""},
	{"64.00:beam", ":beam", "a sign stands", "write a space instead of \":\""},
	{"64.00 EUR, beam", ",", "a sign stands", "write a space instead of \",\""},
	{"£64 EUR", "EUR", "two different currencies", "small letters"},
	{"GBP 64 ALL seals", "ALL", "two different currencies", "small letters"},
	{"$64 EUR", "EUR", "two different currencies", ""},
	{"3 x", "x", "no price", "3 x 4.99"},
	{"2 * 12.50 seals", "*", "no sign between", "write 2 x 12.50"},
	{"2*12.50", "*", "no sign between", "write 2 x 12.50"},
	{"2 X 12.50", "X", "no sign between", "write 2 x 12.50"},
	{"2X12.50", "X", "no sign between", "write 2 x 12.50"},
	{"12 50 seals", "12 50", "a space stands inside", "write 12.50, or 12.00 or a word before the 50"},
	{"12 50", "12 50", "a space stands inside", "write 12.50"},
	{"£12 50 seals", "12 50", "a space stands inside", "write 12.50"},
	{"3 x 12 50 seals", "12 50", "a space stands inside", "write 12.50"},
	{"50p", "50p", "hundredths", "write 0.50"},
	{"50p washers", "50p", "hundredths", "write 0.50"},
	{"50 p washers", "50 p", "hundredths", "write 0.50"},
	{"5 pence", "5 pence", "hundredths", "write 0.05"},
	{"2 x 99c nuts", "99c", "hundredths", "write 0.99"},
	{"12.5p", "12.5p", "hundredths", "write 0.125"},
	{"12.50p", "12.50p", "for hundredths", "write 12.50 alone"},
	{"£12.50p", "12.50p", "for hundredths", "write £12.50 alone"},
	{"£50p", "50p", "for hundredths", "write £50 alone"},
	{"5.00 x", "x", "no price", "another word than x if 5.00 is the price"},
	{"5.00 x hose", "hose", "no price", "another word than x if 5.00 is the price"},
	{"3 x bolts", "bolts", "no price", "3 x 4.99"},
	{"3 × bolts", "bolts", "no price", "3 x 4.99"},
	{"2 x 3 x 4.99", "x", "second quantity", "3 x 4.99"},
	{"£2 x 6.49", "£", "before the quantity", "2 x £6.49"},
	{"2 EUR x 6.49", "EUR", "before the quantity", "2 x 6.49 EUR"},
}

func TestScanRefuses(t *testing.T) {
	for _, c := range unreadable {
		w, bad := Scan(c.text)
		inBounds(t, c.text, bad)
		if bad == nil {
			t.Errorf("Scan(%q) = %+v, want a complaint", c.text, w)
			continue
		}
		if at := c.text[bad.Start:bad.End]; at != c.at || !strings.Contains(bad.Why, c.why) || !strings.Contains(bad.Help, c.help) {
			t.Errorf("Scan(%q) complains at %q: %s (help: %s)", c.text, at, bad.Why, bad.Help)
		}
	}
}

func TestParse(t *testing.T) {
	w, bad := parse("  2 x 6.49 EUR ")
	if bad != nil || w.NumberStart != 6 || w.UnitStart != 11 || w.End != 14 {
		t.Errorf("parse with spaces around = %+v, %v", w, bad)
	}
	for _, text := range []string{"64.00 beam", "64.00 EUR EUR"} {
		_, bad := parse(text)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("parse(%q) took it", text)
		}
	}
}

func TestWrittenCurrency(t *testing.T) {
	for _, c := range []struct{ text, home, want string }{
		{"64.00", "GBP", "GBP"},
		{"£64", "EUR", "GBP"},
		{"€64", "GBP", "EUR"},
		{"$64", "USD", "USD"},
		{"$64", "NZD", "NZD"},
		{"$64 CAD", "GBP", "CAD"},
		{"$64", "GBP", ""},
		{"¥64", "JPY", "JPY"},
		{"¥64", "CNY", "CNY"},
		{"¥64", "EUR", ""},
		{"kr 64", "DKK", "DKK"},
		{"kr 64", "ISK", "ISK"},
		{"kr 64", "GBP", ""},
		{"64.005", "GBP", ""},
		{"64.000", "GBP", ""},
		{"64.005", "KWD", "KWD"},
		{"64.0", "JPY", ""},
		{"64.5 JPY", "GBP", ""},
		{"2 x 64.005", "GBP", "GBP"},
		{"2 x 64.5", "JPY", "JPY"},
		{"64 ALL seals", "GBP", "ALL"},
	} {
		w, bad := Scan(c.text)
		if bad != nil {
			t.Fatalf("Scan(%q): %v", c.text, bad)
		}
		got, bad := w.Currency(mustLookup(c.home))
		inBounds(t, c.text, bad)
		if got.Code != c.want || (bad == nil) != (c.want != "") {
			t.Errorf("%q at home in %s is in %q, want %q (%v)", c.text, c.home, got.Code, c.want, bad)
		}
	}
}

func TestParseThree(t *testing.T) {
	for text, want := range map[string][3]string{
		"260 340 520": {"260", "340", "520"}, "9 14 30": {"9", "14", "30"}, "14": {"14", "14", "14"}, "0": {"0", "0", "0"},
		"0 0 5.50": {"0", "0", "5.5"}, "£1,260 £1,340.50  GBP1520": {"1260", "1340.5", "1520"}, "7 7 7": {"7", "7", "7"},
	} {
		got, bad := ParseThree(text, gbp)
		if bad != nil {
			t.Errorf("ParseThree(%q): %v", text, bad)
			continue
		}
		for i := range got {
			isDec(t, text, got[i], want[i])
		}
	}
	for text, at := range map[string]string{
		"": "", "260 340": "260 340", "1 2 3 4": "1 2 3 4", "340 260 520": "260", "260 340 339.99": "339.99",
		"260 -1 520": "-1", "€1 2 3": "€", "1 2 3x4": "3x4", "1 2.005 3": "2.005", "1, 2, 3": "1, 2, 3",
	} {
		_, bad := ParseThree(text, gbp)
		inBounds(t, text, bad)
		if bad == nil || text[bad.Start:bad.End] != at {
			t.Errorf("ParseThree(%q): %+v, want a complaint at %q", text, bad, at)
		}
	}
}

func FuzzScan(f *testing.F) {
	for _, c := range readable {
		f.Add(c.text)
	}
	for _, c := range unreadable {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, bad := Scan(text)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		if w.End < 1 || w.End > len(text) || w.NumberStart >= w.NumberEnd || w.NumberEnd > w.End || w.UnitStart > w.UnitEnd || w.UnitEnd > w.End {
			t.Fatalf("Scan(%q): places out of bounds: %+v", text, w)
		}
		if !w.Number.IsPositive() || !w.Quantity.IsPositive() {
			t.Fatalf("Scan(%q) = %s x %s", text, w.Quantity, w.Number)
		}
		again, bad := parse(text[:w.End])
		if bad != nil || !again.Number.Equal(w.Number) || !again.Quantity.Equal(w.Quantity) || again.Code != w.Code || again.Symbol != w.Symbol {
			t.Fatalf("Scan(%q) read %q, which reads back as %+v, %v", text, text[:w.End], again, bad)
		}
		in, bad := w.Currency(gbp)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		sum := WorkOut(w, in, in, Terms{}).Whole
		if sum.IsZero() {
			return // a line that works out to zero is for the caller to refuse
		}
		if printed := Format(sum, in); len(strings.SplitN(printed, ".", 2)[0]) <= 12 {
			if back, bad := parse(printed); bad != nil || !back.Number.Equal(sum) {
				t.Fatalf("%q printed as %q reads back as %s, %v", text, printed, back.Number, bad)
			}
			if back, bad := parse(Show(sum, in)); bad != nil || !back.Number.Equal(sum) {
				t.Fatalf("%q shown as %q reads back as %s, %v", text, Show(sum, in), back.Number, bad)
			}
		}
	})
}

func FuzzThree(f *testing.F) {
	for _, text := range []string{"260 340 520", "14", "£1 £2 £3", "3 2 1", "0 0 0", "1,250 1,300 2,000.50"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		three, bad := ParseThree(text, gbp)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		if three[0].IsNegative() || three[1].LessThan(three[0]) || three[2].LessThan(three[1]) {
			t.Fatalf("ParseThree(%q) = %v", text, three)
		}
		printed := Format(three[0], gbp) + " " + Format(three[1], gbp) + " " + Format(three[2], gbp)
		if back, bad := ParseThree(printed, gbp); bad != nil || !back[0].Equal(three[0]) || !back[1].Equal(three[1]) || !back[2].Equal(three[2]) {
			t.Fatalf("%q printed as %q reads back as %v, %v", text, printed, back, bad)
		}
	})
}
