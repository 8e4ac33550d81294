package export

import (
	"io"

	"guidecoat/journal/fact"
	"guidecoat/journal/view"
)

// PartOf is a part as it stood. File and line are where its state was written. Folder is
// that of the build in a garage, otherwise "", as it is below.
func PartOf(v *view.View, p *view.PartView, folder string) Object {
	f := figures{v.Currency, true, true}
	return inFolder(folder, f.object(Object{
		{"id", p.ID},
		{"description", p.Description},
		{"state", p.State},
		{"system", text(p.System)},
		{"stage", text(p.Stage)},
		{"condition", text(p.Condition)},
		{"origin", text(p.Origin)},
		{"number", text(p.Number)},
		{"estimate", p.Estimate}, // best, likely, worst
		{"paid", p.Paid},
		{"supplier", text(p.Supplier)},
		{"donor", text(p.Donor)},
		{"worth", p.Worth}, // by which it bears a share of its donor's price
		{"due", p.Due},
		{"late", p.Late},
		{"file", p.Note},
		{"line", p.Line},
	}...))
}

// DonorsOf are the vehicles that parts come from.
func DonorsOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return objectsOf(v.Donors, func(d fact.Donor) Object {
		return inFolder(folder, f.object(Object{
			{"donor", d.Name},
			{"category", text(d.Category)},
			{"price", d.Price},   // less what came back for it
			{"parts", d.Parts},   // taken by this build
			{"spread", d.Spread}, // over parts
			{"holds", d.Holds},   // what is still in it is worth
			{"left", d.Left},     // in the garage
		}...))
	})
}

// QuotesOf are what is asked for parts, brought into the yard.
func QuotesOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return objectsOf(v.Quotes, func(q fact.Quote) Object {
		return inFolder(folder, f.object(Object{
			{"part", q.Part},
			{"from", text(q.From)},
			{"price", q.Price},
			{"freight", q.Freight},
			{"duty", q.Duty},
			{"import_tax", q.Tax},
			{"clearance", q.Clearance},
			{"landed", q.Landed}, // all of them
			{"wait_days", q.Wait},
			{"holding", q.Holding}, // what keeping the vehicle costs meanwhile
			{"until", q.Until},
			{"expired", q.Expired},
			{"best", q.Best},
		}...))
	})
}

// WritePartsCSV writes parts as CSV. Its error is the writer's.
func WritePartsCSV(w io.Writer, parts []Object) error {
	return writeCSV(w, []string{"id", "description", "state", "system", "stage", "condition", "origin", "paid", "due", "late", "supplier", "file", "line"}, parts)
}
