package render

// Labels are the words of the pages that a theme may replace, as they are otherwise.
// What warns, or says what stands in the way of driving and of the sale, is not among them.
var Labels = []string{
	// What the navigation and the headings of pages say.
	"Build", "Sessions", "Pictures", "Money", "Snags", "Parts", "Measured", "Measured and checked", "Handover record", "Selling", "Notes", "The notes as typed",
	// Headings within pages.
	"Newest session", "Outstanding", "Temporary fixes", "Temporary fixes over time", "To be done", "Told to the buyer", "Stage by stage", "The vehicle", "Hours by week", "Time", "Checked", "Fault scans", "Opened", "Cleared", "Earlier", "Later",
	"The sale", "Forecast", "Running total", "By stage", "By stage and category", "Budgets", "Against the budgets", "What matters most", "Go on or stop", "By category", "By supplier", "Every line",
	"An advert", "Open snags over time", "Readings", "Checks", "Damage", "Fasteners",
	// Key figures.
	"Work", "Paid", "Net on the work", "Sold for", "Profit", "Parts fitted", "Checks done", "Odometer", "Money back", "Net", "Kept in the garage", "Ready", "Final cost", "Profit per hour", "Break-even", "Floor", "Asking price", "Surcharge to come",
}
