// Package export turns what was worked out into JSON and CSV, for
// other programs to read. It computes nothing: every figure is formatted once,
// from as many digits as the journal keeps.
//
// The keys are a contract. More may be added; none is renamed or left out. Money
// is text with exactly the digits of its currency, dates are YYYY-MM-DD, what is
// absent is null, and lists are never null.
package export

import (
	"encoding/json"
	"io"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"

	"github.com/shopspring/decimal"
)

// Write writes a value as JSON that people can read too. "<" and "&" stay as they
// are, since this is not going into a web page. Its error is the writer's.
func Write(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}

// WriteCompact writes a value as JSON for programs alone, which is half the size.
func WriteCompact(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	return encoder.Encode(value)
}

// text returns nil for a text that is absent.
func text(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// list returns an empty list for none.
func list[T any](items []T) []T {
	if items == nil {
		return []T{}
	}
	return items
}

// figures formats what is shown in one currency.
type figures struct {
	currency     money.Currency
	whole, hours bool // more than the work is shown; and so is time
}

func (f figures) sum(d decimal.Decimal) string { return money.Format(d, f.currency) }

// orNull formats a sum that there may not be.
func (f figures) orNull(d *decimal.Decimal) *string {
	if d == nil {
		return nil
	}
	return new(f.sum(*d))
}

// ofWhole formats a sum that only those see who see everything.
func (f figures) ofWhole(d decimal.Decimal) *string {
	if !f.whole {
		return nil
	}
	return new(f.sum(d))
}

func (f figures) three(t *fact.Three) *[3]string {
	if t == nil {
		return nil
	}
	return &[3]string{f.sum(t[0]), f.sum(t[1]), f.sum(t[2])}
}

func (f figures) minutes(m measure.Minutes) *int {
	if !f.hours {
		return nil
	}
	return new(int(m))
}
