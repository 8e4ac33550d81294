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
		{"4 x 12.00 each", nil}, {"12.00 each side seals", nil}, {"12.50 - 0.80 mm wire", nil}, {"12.50 - 5 bolts", nil}, {"12.50 + 5 bolts free", nil},
		{"12.50 and a hose", nil}, {"45.00 hose, less 5.00 discount", nil}, {"12.50 to the coast", nil}, {"12.50 less than asked", nil}, {"20 bolts at 5 bar", nil},
		{"4.5 litres brake fluid £11.00", []string{"second-amount 11.00"}},
		{"2.5 metres cable at 3.10", []string{"second-amount 3.10"}},
		{"1 tyre £70", []string{"second-amount £70"}},
		{"1 tin paint, £14", []string{"second-amount £14"}},
		{"2 tyres at 70", []string{"second-amount 70"}},
		{"2 tyres, 140 the pair", []string{"second-amount 140"}},
		{"10 bolts (4.20)", []string{"second-amount 4.20"}},
		{"2 x 4 timber 6.00", []string{"second-amount 6.00"}},
		{"12.00 hose + 3.50 postage", []string{"second-amount + 3.50"}},
		{"12.00 hose (plus 3.50 post)", []string{"second-amount plus 3.50"}},
		{"40 hob + 4.50", []string{"second-amount + 4.50"}},
		{"10 x 0.42 bolts + 3.00 post", []string{"second-amount + 3.00"}},
		{"12.00 hose, 3.50 postage", []string{"second-amount 3.50"}},
		{"12.00 hose incl. 3.50 postage", nil}, {"12.00 hose, 3.50 of it postage", nil}, {"12.00 ex tax office lamp", nil}, {"12.00 plus tax disc holder", nil},
		{"12.00 hose, before tax", []string{"unadded-tax before tax"}},
		{"12.00 / 2 hose", []string{"second-amount / 2"}},
		{"12.00 hose less 10%", []string{"second-amount less 10%"}},
		{"12.00 hose -10%", []string{"second-amount -10%"}},
		{"12.00 hose minus 2.00 off", []string{"second-amount minus 2.00"}},
		{"1500 less 50", []string{"second-amount less 50"}},
		{"40 hob 60.00", []string{"second-amount 60.00"}}, {"40.00 hob 60.00", nil},
		{"40 hob (RRP 60.00)", nil}, {"40 hob, was £60", nil}, {"40 hob reduced from 60.00", nil}, {"20 tracker part no 44.21", nil}, {"20 tracker no. 44.21", nil}, {"20 deposit of £140", nil},
		{"60 diesel, 41.20 litres", nil}, {"12 cable 2.50 mm", nil}, {"18 oil 5.00 litre can", nil}, {"9 O-ring 12.37 mm", nil}, {"9 timber 2 x 4", nil}, {"9 bolts M8 x 20", nil},
		{"4 x 3.99 clips x 2", nil}, {"3.99 pack x-large", nil}, {"30 less 10 bolts", nil}, {"20 deposit on a £140 gearbox", nil}, {"12.00 oil 5% thinner", nil}, {"20 bolts at 5 bar", nil},
		{"12.00 hose + 20% VAT", []string{"unadded-tax + 20% VAT"}},
		{"12.00 hose exc vat", []string{"unadded-tax exc vat"}},
		{"12.00 hose w/o VAT", []string{"unadded-tax w/o VAT"}},
		{"12.00 hose exVAT", []string{"unadded-tax exVAT"}},
		{"12.00 hose, vat extra", []string{"unadded-tax vat extra"}},
		{"12.00 hose +20%", []string{"unadded-tax +20%"}},
		{"12.00 cargo net", nil}, {"12.00 extra tax disc", nil}, {"12.00 hose incl. VAT", nil}, {"12.00 hose, VAT 20%", nil},
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

// The help leads out of the warning, also where the words were right.
func TestMoneyInWordsHelp(t *testing.T) {
	for line, want := range map[string]string{
		"40 hob 60.00": "or 40.00 if that is the amount.", "4.5 litres fluid £11.00": "or 4.50 if", "2 x 4 timber 6.00": "or 2 x 4.00 if", "£40 hob 60.00": "or £40.00 if",
	} {
		wantOf(t, "second-amount", "---\nstage: body\ncost: "+line+"\n---\n", want)
	}
	wantOf(t, "second-amount", "-- build.md --\n---\nbuild: Halden\ncurrency: JPY\n---\n-- 2026-04-11.md --\n---\nstage: body\ncost: 4 bolts 12.00\n---\n", "Write QUANTITY x PRICE, or the amount first.")
	wantOf(t, "unadded-tax", "---\nstage: body\ncost: 14.60 + vat fuses\n---\n", `Write "; plus vat" at the end`)
}
