package state

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/fact"

	"github.com/shopspring/decimal"
)

// accountOf are the figures of a sale.
func accountOf(a *journal.Account) *fact.Account {
	if a == nil {
		return nil
	}
	price := func(s *journal.Sale) *decimal.Decimal {
		if s == nil {
			return nil
		}
		return &s.Price
	}
	return &fact.Account{Asked: price(a.Asked), Floor: price(a.Floor), Agreed: price(a.Agreed), Deposit: &a.Deposit, PartExchange: &a.PartExchange,
		Paid: &a.Paid, Owed: a.Owed(), Claims: &a.Claims, Kept: &a.Kept,
		Told: slices.ContainsFunc(a.Lines, func(s *journal.Sale) bool { return s.Line.Kind.Key == "sale" })}
}
