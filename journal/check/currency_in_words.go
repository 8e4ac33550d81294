package check

import (
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/problem"
)

var currencyInWords = &Check{
	Name:     "currency-in-words",
	Severity: problem.Warning,
	Summary:  "an amount before the name of another currency, in words",
	Explain: "The currency of an amount is its ISO 4217 code in capitals or its sign, and the build's own without one. " +
		"Words behind the amount, such as euros, are description and change nothing.",
	Bad:  "---\nstage: body\ncost: 64.00 euros for the lamp\n---\n",
	Good: "---\nstage: body\ncost: 64.00 EUR for the lamp; rate 0.86\n---\n",
	Run: func(p *Pass) {
		home := p.State.Build.Card.Currency.Code
		if home == "" {
			return
		}
		for _, w := range p.notes() {
			for _, l := range w.note.Lines {
				a, ok := l.Amount()
				if p.leftOut(l) || !ok || a.Code != "" || a.Symbol != "" {
					continue
				}
				at := currencyName.FindStringSubmatchIndex(l.Words().S)
				if at == nil {
					continue
				}
				name := l.Words().S[at[2]:at[3]]
				if codes := codesOf(name); !slices.Contains(codes, home) {
					p.Report(l.Words().Span(at[2], at[3]), "the amount counts as "+home+", and "+quote(name)+" is description",
						"Write "+l.HeadSpan().Text()+" "+codes[0]+" and a rate, or put another word first.")
				}
			}
		}
	},
}

// currencyNames are what currencies are called, and their codes in ISO 4217.
var currencyNames = []struct{ names, codes string }{
	{"euro|euros|eur", "EUR"},
	{"pounds|sterling|quid|gbp", "GBP"},
	{"dollars|bucks|usd|cad|aud|nzd", "USD CAD AUD NZD SGD HKD"},
	{"francs|chf", "CHF"},
	{"kroner|krone|nok|dkk", "NOK DKK"},
	{"kronor|krona|sek", "SEK ISK"},
	{"zloty|zlotys|pln", "PLN"},
	{"yen|jpy", "JPY"},
}

// currencyName is the name of one at the beginning of the words, but for the Euro 5 of
// exhaust gases.
var currencyName = func() *regexp.Regexp {
	var names []string
	for _, c := range currencyNames {
		names = append(names, c.names)
	}
	return regexp.MustCompile(`(?i)^(` + strings.Join(names, "|") + `)(?: [^0-9]|[,.)]|$)`)
}()

func codesOf(name string) []string {
	for _, c := range currencyNames {
		if slices.Contains(strings.Split(c.names, "|"), strings.ToLower(name)) {
			if code := strings.ToUpper(name); slices.Contains(strings.Fields(c.codes), code) {
				return []string{code}
			}
			return strings.Fields(c.codes)
		}
	}
	return nil
}
