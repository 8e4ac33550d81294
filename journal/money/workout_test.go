package money

import (
	"testing"

	"github.com/shopspring/decimal"
)

func TestWorkOut(t *testing.T) {
	for _, c := range []struct {
		name, amount                    string
		home                            Currency
		vat, rate, share                string
		garage                          bool
		price, tax, whole, build, spare string
	}{
		{name: "as typed", amount: "138.00", home: gbp, price: "138", tax: "0", whole: "138", build: "138", spare: "0"},
		{name: "quantity", amount: "3 x 4.99", home: gbp, price: "14.97", tax: "0", whole: "14.97", build: "14.97", spare: "0"},
		{name: "quantity of a fine price", amount: "12 x 0.125", home: gbp, price: "1.5", tax: "0", whole: "1.5", build: "1.5", spare: "0"},
		{name: "half away from zero", amount: "0.5 x 2.25", home: gbp, price: "1.13", tax: "0", whole: "1.13", build: "1.13", spare: "0"},

		// VAT fraction 1/6 at 20 %, 1/21 at 5 % (HMRC VAT Notice 700; Notice 718/1 §3.3):
		// 20.00 of 120.00 and 5.00 of 105.00 are tax.
		{name: "VAT 20 %", amount: "100.00", home: gbp, vat: "20", price: "100", tax: "20", whole: "120", build: "120", spare: "0"},
		{name: "VAT 5 %", amount: "100.00", home: gbp, vat: "5", price: "100", tax: "5", whole: "105", build: "105", spare: "0"},
		// GOV.UK, VAT margin schemes: the tax in 500 is 83.33; on the net 416.67 it is 83.33.
		{name: "VAT in a margin", amount: "416.67", home: gbp, vat: "20", price: "416.67", tax: "83.33", whole: "500", build: "500", spare: "0"},
		// Rounded by line: 0.12 at 20 % is 0.024, twice that on one line 0.048.
		{name: "VAT on the rounded price", amount: "2 x 0.12", home: gbp, vat: "20", price: "0.24", tax: "0.05", whole: "0.29", build: "0.29", spare: "0"},

		{name: "exchange", amount: "64.00 EUR", home: gbp, rate: "0.86", price: "64", tax: "0", whole: "55.04", build: "55.04", spare: "0"},
		{name: "exchange after VAT", amount: "9.99 EUR", home: gbp, vat: "19", rate: "0.86", price: "9.99", tax: "1.9", whole: "10.23", build: "10.23", spare: "0"},
		{name: "exchange to no decimals", amount: "12.50 EUR", home: jpy, rate: "163.4", price: "12.5", tax: "0", whole: "2043", build: "2043", spare: "0"},
		{name: "exchange from no decimals", amount: "3 x 1.5 JPY", home: gbp, rate: "0.005", price: "5", tax: "0", whole: "0.03", build: "0.03", spare: "0"},

		{name: "share", amount: "10.01", home: gbp, share: "1/4", price: "10.01", tax: "0", whole: "10.01", build: "2.5", spare: "7.51"},
		{name: "share of a half penny", amount: "0.01", home: gbp, share: "50%", price: "0.01", tax: "0", whole: "0.01", build: "0.01", spare: "0"},
		{name: "tool", amount: "240.00", home: gbp, garage: true, price: "240", tax: "0", whole: "240", build: "0", spare: "240"},
		{name: "tool with a share", amount: "100.00", home: gbp, garage: true, share: "1/3", price: "100", tax: "0", whole: "100", build: "33.33", spare: "66.67"},
		{name: "all four steps", amount: "1.5 x 33.33 EUR", home: gbp, vat: "20", rate: "0.8612", share: "12.5%", price: "50", tax: "10", whole: "51.67", build: "6.46", spare: "45.21"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, bad := parse(c.amount)
			if bad != nil {
				t.Fatal(bad)
			}
			in, bad := w.Currency(c.home)
			if bad != nil {
				t.Fatal(bad)
			}
			terms := Terms{ToGarage: c.garage}
			if c.vat != "" {
				terms.VAT = new(dec(c.vat))
			}
			if c.rate != "" {
				terms.Rate = new(dec(c.rate))
			}
			if c.share != "" {
				share, bad := ParseShare(c.share)
				if bad != nil {
					t.Fatal(bad)
				}
				terms.Share = &share
			}
			s := WorkOut(w, in, c.home, terms)
			isDec(t, "price", s.Price, c.price)
			isDec(t, "tax", s.Tax, c.tax)
			isDec(t, "whole", s.Whole, c.whole)
			isDec(t, "build", s.Build, c.build)
			isDec(t, "garage", s.Garage, c.spare)
		})
	}
}

// FuzzWorkOut checks the sums against whole minor units counted in integers.
func FuzzWorkOut(f *testing.F) {
	f.Add(uint32(1001), uint16(20), uint16(1), uint16(4))
	f.Add(uint32(1), uint16(0), uint16(1), uint16(2))
	f.Fuzz(func(t *testing.T, pence uint32, vat, num, den uint16) {
		if pence == 0 || num == 0 || num > den {
			return
		}
		w := Written{Number: decimal.New(int64(pence), -2), Places: 2}
		s := WorkOut(w, gbp, gbp, Terms{VAT: new(decimal.NewFromInt(int64(vat))), Share: &Fraction{int64(num), int64(den)}})
		half := func(above, below int64) int64 { return (2*above + below) / (2 * below) }
		tax := half(int64(pence)*int64(vat), 100)
		whole := int64(pence) + tax
		build := half(whole*int64(num), int64(den))
		for _, part := range []struct {
			name string
			got  decimal.Decimal
			want int64
		}{{"tax", s.Tax, tax}, {"whole", s.Whole, whole}, {"build", s.Build, build}, {"garage", s.Garage, whole - build}} {
			if !part.got.Equal(decimal.New(part.want, -2)) {
				t.Errorf("%s of %d pence at %d%%, %d/%d = %s, want %d pence", part.name, pence, vat, num, den, part.got, part.want)
			}
		}
	})
}

func TestParseShare(t *testing.T) {
	for text, want := range map[string]Fraction{
		"1/4": {1, 4}, "2/8": {1, 4}, "25%": {1, 4}, "25 %": {1, 4}, "12.5%": {1, 8}, "100%": {1, 1}, "1/1": {1, 1},
		" 1 / 3 ": {1, 3}, "0.000000000001%": {1, 100_000_000_000_000}, "99.999999999999%": {99_999_999_999_999, 100_000_000_000_000},
	} {
		if got, bad := ParseShare(text); bad != nil || got != want {
			t.Errorf("ParseShare(%q) = %v, %v, want %v", text, got, bad, want)
		}
	}
	for _, text := range []string{"", "1", "0/4", "4/0", "5/4", "0%", "101%", "-1/4", "1/-4", "1.5/4", "1/4/2", "%", "/", "a/b", "01/4", "1e1%", "1/4 of it", "50%%"} {
		got, bad := ParseShare(text)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("ParseShare(%q) = %v, want a complaint", text, got)
		}
	}
}

func TestParsePercentAndRate(t *testing.T) {
	for text, want := range map[string]string{"20%": "20", "12.5 %": "12.5", "100%": "100", " 0.5% ": "0.5"} {
		got, bad := ParsePercent(text)
		if bad != nil {
			t.Fatalf("ParsePercent(%q): %v", text, bad)
		}
		isDec(t, text, got, want)
	}
	for _, text := range []string{"", "20", "0%", "101%", "-5%", "+5%", ".5%", "5.%", "1e1%", "020%", "20%%", "20% vat", "12,5%"} {
		got, bad := ParsePercent(text)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("ParsePercent(%q) = %v, want a complaint", text, got)
		}
	}
	for text, want := range map[string]string{"0.86": "0.86", "163.4": "163.4", "0.000000000001": "0.000000000001"} {
		got, bad := ParseRate(text)
		if bad != nil {
			t.Fatalf("ParseRate(%q): %v", text, bad)
		}
		isDec(t, text, got, want)
	}
	for _, text := range []string{"", "0", "0.0", "-1", "+1", ".86", "1e-3", "0.0000000000001", "0,86", "0.86 EUR", "£0.86"} {
		got, bad := ParseRate(text)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("ParseRate(%q) = %v, want a complaint", text, got)
		}
	}
}
