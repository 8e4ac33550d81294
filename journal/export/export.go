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

	"guidecoat/journal/money"
	"guidecoat/journal/state"

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

// figures formats sums of one currency.
type figures money.Currency

func (f figures) sum(d decimal.Decimal) string { return money.Format(d, money.Currency(f)) }

// orNull formats a sum that there may not be.
func (f figures) orNull(d *decimal.Decimal) *string {
	if d == nil {
		return nil
	}
	return new(f.sum(*d))
}

func (f figures) three(t state.Three) [3]string {
	return [3]string{f.sum(t[0]), f.sum(t[1]), f.sum(t[2])}
}
