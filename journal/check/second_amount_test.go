package check

import (
	"slices"
	"testing"
)

// What is read as description though it looks like money, and what is not.
func TestMoneyInWords(t *testing.T) {
	for _, c := range []struct {
		line string
		want []string
	}{
		{"62 miles x 0.45 fetching", []string{"second-amount 0.45"}},
		{"2 pairs x 6.50 gloves", []string{"second-amount 6.50"}},
		{"4 tyres @ 32.00", []string{"second-amount 32.00"}},
		{"4 tyres @£32.00 each", []string{"second-amount 32.00"}},
		{"64.00 EURO lamp", []string{"currency-in-words EURO"}},
		{"64 euros", []string{"currency-in-words euros"}},
		{"2 x 64 dollars, two lamps", []string{"currency-in-words dollars"}},
		{"64 usd lamp", []string{"currency-in-words usd"}},
		{"64 pounds lamp", nil}, {"64 quid", nil}, {"64.00 Euro 5 catalyst", nil}, {"5.00 dollar store tape", nil}, {"£5 euros", nil}, {"5.00 sekaten", nil},
		{"4 bolts 12.00", []string{"second-amount 12.00"}},
		{"1 875 hammer", []string{"second-amount 875"}},
		{"£1 250 box", []string{"second-amount 250"}},
		{"62 miles x 45p fetching", []string{"second-amount 45"}},
		{"4 tyres @ 32", []string{"second-amount 32"}},
		{"2 pairs x 6 gloves", []string{"second-amount 6"}},
		{"4 tyres at 32 each", []string{"second-amount 32"}},
		{"5 bolts M10 x 1.25 at 6.50", []string{"second-amount 6.50"}},
		{"12 M10 x 1.25 bolts", nil}, {"12 M10x1.25 bolts", nil}, {"30 2 x M8 bolts", nil}, {"30 timber 2 x 4", nil}, {"9 oil @ the coast", nil},
		{"30 washers at 40p", []string{"second-amount 40p"}},
		{"30 washers, 40p each", []string{"second-amount 40p"}},
		{"4 for 20.00 bolts", []string{"second-amount 20.00"}},
		{"£20 - £5", []string{"second-amount - £5"}},
		{"£20 – £5 off", []string{"second-amount – £5"}},
		{"20.00 - 5.00", []string{"second-amount - 5.00"}},
		{"20.00 less 5.00 discount", []string{"second-amount less 5.00"}},
		{"20.00 + 5.00 postage", []string{"second-amount + 5.00"}},
		{"20.00 +5.00", []string{"second-amount +5.00"}},
		{"20.00 and 5.00 postage", []string{"second-amount and 5.00"}},
		{"20.00 to 25.00", []string{"second-amount to 25.00"}},
		{"3 x 4.99 + £3 postage", []string{"second-amount + £3"}},
		{"12.00 each", []string{"second-amount each"}},
		{"12.00 each, 4 bolts", []string{"second-amount each"}},
		{"4 x 12.00 each", nil}, {"12.00 each side seals", nil}, {"12.50 - 0.80 mm wire", nil}, {"12.50 - 5 bolts", nil}, {"12.50 + 5 bolts free", nil},
		{"12.50 and a hose", nil}, {"45.00 hose, less 5.00 discount", nil}, {"12.50 to the coast", nil}, {"12.50 less than asked", nil}, {"20 bolts at 5 bar", nil},
		{"12.50 + vat oil", []string{"unadded-tax + vat"}},
		{"12.50 oil plus VAT", []string{"unadded-tax plus VAT"}},
		{"12.50 oil ex. vat", []string{"unadded-tax ex. vat"}},
		{"12.50 oil + vat; plus vat", nil},
		{"12.50 oil, vat paid", nil},
		{"12.50 10 mm bolts", nil}, {"64.00 3 m hose", nil}, {"12.50 M10 x 1.25 bolts", nil}, {"5 of 120 grit discs", nil},
		{"3 x 4.99 oil", nil}, {"20 12v bulbs", nil}, {"9 P80 discs", nil}, {"15 hose 1.5 m", nil},
	} {
		var got []string
		for _, p := range proofread(t, folder("---\nstage: body\ncost: "+c.line+"\n---\n")) {
			if slices.Contains([]string{"second-amount", "unadded-tax", "currency-in-words"}, p.Check) {
				got = append(got, p.Check+" "+p.Span.Text())
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.line, got, c.want)
		}
	}
}
