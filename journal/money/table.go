package money

import (
	"strings"

	"guidecoat/journal/pick"
)

// minorDigits maps the codes of ISO 4217 (list one: current currencies and
// funds) to the decimals of their minor units. Written from memory of that list
// and cross-checked in the tests against CLDR. Metals, units of account and test
// codes have no minor unit and are left out: nobody pays a breaker in XAU. ANG
// (until 2025) and BGN (until 2026) are kept, as receipts in them still are.
var minorDigits = func() map[string]int32 {
	table := make(map[string]int32, 200)
	for digits, codes := range []string{
		0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
		2: `AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD
			BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP
			ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR
			JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU
			MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR
			RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS
			TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG`,
		3: "BHD IQD JOD KWD LYD OMR TND",
		4: "CLF UYW",
	} {
		for code := range strings.FieldsSeq(codes) {
			table[code] = int32(digits)
		}
	}
	return table
}()

// A symbol stands for one currency everywhere, or for several, each at home.
type symbol struct {
	text  string
	codes string // separated by spaces; the only one, or all that use it
}

// symbols are those that may stand before a number.
var symbols = []symbol{
	{"£", "GBP"},
	{"€", "EUR"},
	{"$", "USD CAD AUD NZD SGD HKD MXN TWD ARS BBD BMD BND BSD BZD CLP COP CUP DOP FJD GYD JMD KYD LRD NAD SBD SRD SVC TTD UYU XCD"},
	{"¥", "JPY CNY"},
	{"kr", "SEK NOK DKK ISK"},
}

// uses reports whether the currency of that code is written with the symbol.
func (s symbol) uses(code string) bool {
	for c := range strings.FieldsSeq(s.codes) {
		if c == code {
			return true
		}
	}
	return false
}

// only returns the code of a symbol that stands for one currency everywhere, else "".
func (s symbol) only() string {
	return pick.Either(strings.Contains(s.codes, " "), "", s.codes)
}

func symbolNamed(text string) symbol {
	return pick.First(symbols, func(s symbol) bool { return s.text == text })
}
