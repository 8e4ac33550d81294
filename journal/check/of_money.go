package check

import (
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofMoney = []*Check{
	{
		Name: journal.NoRate, Severity: problem.Error,
		Summary: "another currency without a rate of exchange",
		Explain: "Every sum is turned into the build's own currency, at the rate on the line or else on the job card. " +
			"A word in capitals behind an amount, such as ALL, may happen to be a currency: write it in small letters if it is description.",
		Example: "---\nstage: rear axle\nwrong|cost: 240 SEK axle nuts\nright|cost: 240 SEK axle nuts; rate 0.077\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := "Write \"; rate NUMBER\" on the line, or a rate of " + f.Word + " in build.md"
			if f.Span.Text() == f.Word {
				help += ", or " + quote(strings.ToLower(f.Word)) + " if it is description"
			}
			return "no rate of exchange from " + quote(f.Word) + " to " + strings.Join(f.Near, ""), help + "."
		},
	},
	{
		Name: journal.OwnRate, Severity: problem.Error,
		Summary: "a rate of exchange for the build's own currency",
		Explain: "The build's own currency is not exchanged, so a rate says that another currency was meant. " +
			"Write that currency behind the amount, or leave the rate out.",
		Example: "---\nstage: rear axle\nwrong|cost: 64.00 brake hoses; rate 0.86\nright|cost: 64.00 EUR brake hoses; rate 0.86\n---\n",
		Message: "a rate of exchange for {word}, the build's own currency",
		Help:    "Write the currency that was paid behind the amount, or leave the rate out.",
	},
	{
		Name: journal.MissingVAT, Severity: problem.Error,
		Summary: "tax to be added, but no rate of tax",
		Explain: "A price `plus vat` needs the rate, from the line itself or from `vat` on the job card. " +
			"Without it what was paid is not known.",
		Example: besideCard("---\nstage: rear axle\nwrong|cost: 64.00 brake hoses; plus vat\nright|cost: 64.00 brake hoses; plus vat 20%\n---\n", ""),
		Message: "\"plus vat\" has no rate of tax",
		Help:    "Write it behind, such as \"plus vat 20%\", or write \"vat: 20%\" in build.md.",
	},
	{
		Name: journal.WorksOutToZero, Severity: problem.Error,
		Summary: "a line whose money works out to zero",
		Explain: "After quantity, tax, exchange and rounding nothing is left of it, which is hardly what was paid. Check the quantity and the price.",
		Example: "---\nstage: rear axle\nwrong|cost: 0.1 x 0.04 split pins\nright|cost: 10 x 0.04 split pins\n---\n",
		Message: "{word} works out to zero",
		Help:    "Check the quantity, the price and the rate.",
	},
	{
		Name: journal.UnknownPart, Severity: problem.Error,
		Summary: "a cost or credit for a part that no note declares",
		Explain: "Behind `for` stands the id of a part, so that what it cost is known. " +
			"A part is declared by its first line under `parts`, in any note of the build.",
		Example: "---\nstage: rear axle\nparts:\n  rear-beam: ordered rear axle beam\nwrong|cost: 138.00 rear axle beam; for rear-baem\nright|cost: 138.00 rear axle beam; for rear-beam\n---\n",
		Message: "no part called {word}",
		Help:    "{nearest}A part is declared by its first line under \"parts\".",
	},
	{
		Name: journal.UnstagedMoney, Severity: problem.Warning,
		Summary: "money that belongs to no stage",
		Explain: "It counts in the total but in no stage, so budgets look better than they are. " +
			"Give the note a stage, or the line one of its own. It is said once for each note.",
		Example: "---\nright|stage: rear axle\ncost: 6.49 copper grease\n---\n",
		Message: "{word} belongs to no stage",
		Help:    "Write \"stage: NAME\" in the note, or \"; stage NAME\" on the line.",
	},
	boughtElsewhere, nearSupplier, buyersDeposit,
	{
		Name: journal.SoldTwice, Severity: problem.Error,
		Summary: "a vehicle that is sold twice",
		Explain: "A vehicle that is sold must come back before it can be sold again. The later sale is left out. " +
			"A sale that fell through ends with `kept` or `returned` below `sale`; a part sold by itself is a `credit`.",
		Example: twoDays("sold: 5150.00; to a neighbour\n", "right|sale: returned, he thought it over\nsold: 5200.00; to a neighbour\n"),
		Message: "the vehicle is sold twice, first at {place}",
		Help:    "Leave one of the two out, or write what ended the first below \"sale\": \"returned\", or \"kept\" and the sum.",
	},
	{
		Name: journal.NotAgreed, Severity: problem.Error,
		Summary: "money of a sale whose price nobody wrote down",
		Explain: "What is still owed, and what the sale has earned, is worked out from the price that was agreed. " +
			"A deposit may come before it; what is paid, taken in part exchange or claimed may not go without it.",
		Example: "---\nwrong|sale: paid 5,150.00\nright|sale:\nright|  - agreed 5,150.00\nright|  - paid 5,150.00\n---\n",
		Message: "{word} belongs to a sale without an agreed price",
		Help:    "Write \"agreed\" and the price, below \"sale\" as well.",
	},
	{
		Name: journal.NotSold, Severity: problem.Error,
		Summary: "a vehicle that comes back without having been sold",
		Explain: "`returned` ends the sale that stands, so one must have been agreed before it. A part that goes back stands below `parts`.",
		Example: "---\nsale:\n  - deposit 300.00\nwrong|  - returned\nright|  - kept 300.00\n---\n",
		Message: "the vehicle comes back, but no sale of it stands",
		Help:    "Write \"agreed\" and the price above it, or \"kept\" for a deposit of a sale that fell through.",
	},
	{
		Name: journal.SaleOver, Severity: problem.Warning,
		Summary: "more paid for a sale than was agreed, or more kept than was paid",
		Explain: "Deposit, part exchange and what is paid come to the price in the end. " +
			"What goes beyond it is mostly a deposit that was counted again in the rest, or a slip in a figure.",
		Example: "---\nsale:\n  - deposit 300.00\n  - agreed 5,150.00\nwrong|  - paid 5,150.00\nright|  - paid 4,850.00\n---\n",
		Say: func(f source.Fault) (string, string) {
			if f.Word == "kept" {
				return "more is kept than the " + f.Why + " that the buyer had paid", "Write what was kept of it."
			}
			return "with this the buyer has paid more than the " + f.Why + " agreed", "Write what was still to pay after the deposit."
		},
	},
	{
		Name: journal.PartExchange, Severity: problem.Warning,
		Summary: "a part exchange that the build it went into tells otherwise, or that went into none",
		Explain: "What was taken in part exchange is part of the price here, and the cost of the vehicle in the build that it became. " +
			"`into` names the folder of that build in the garage; it writes the same sum as a cost, `as vehicle`.",
		Example: `-- garage.md --
---
garage: The yard
currency: GBP
---
-- halden/build.md --
---
build: Halden
currency: GBP
---
-- halden/2026-04-11.md --
---
sale:
  - agreed 5,150.00
  - part exchange 900.00; into skeld
---
-- skeld/build.md --
---
build: Skeld
currency: GBP
stages:
  buying: purchase
---
-- skeld/2026-04-12.md --
---
stage: buying
wrong|cost: 800.00 taken in part exchange
right|cost: 900.00 taken in part exchange
---
`,
		Say: func(f source.Fault) (string, string) {
			if f.Why == "" {
				return "the garage has no build in a folder " + quote(f.Word), Choose(f.Word, f.Near)
			}
			return "here the part exchange is " + f.Help + ", and in " + quote(f.Word) + " the vehicle cost " + f.Why, "Write the same sum in both builds."
		},
	},
}

var ofSurcharges = []*Check{
	{
		Name: journal.SurchargeNeedsFor, Severity: problem.Error,
		Summary: "a surcharge that does not say for which part",
		Explain: "A surcharge is money that comes back when the old part is returned, so it belongs to a part. " +
			"Name it with `for`, on the cost and on the credit.",
		Example: "---\nstage: rear axle\nwrong|cost: 120.00 caliper, exchange; surcharge 40.00\nright|parts:\nright|  caliper-left: ordered rear caliper, left\nright|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left\n---\n",
		Message: "{word} does not say for which part",
		Help:    "Write \"; for PART\" on the line.",
	},
	{
		Name: journal.SurchargeShared, Severity: problem.Error,
		Summary: "a surcharge on a price that is shared",
		Explain: "Whose money comes back cannot be told where the build pays only a part of the price. Write the shared price and the surcharge as two lines.",
		Example: ofCaliper("wrong|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left; share 1/2\n" +
			"right|cost: 120.00 caliper, exchange; surcharge 40.00; for caliper-left\n"),
		Message: "{word} cannot stand with a surcharge",
		Help:    "Write the shared price and the surcharge as two lines.",
	},
	{
		Name: journal.SurchargeTooLarge, Severity: problem.Error,
		Summary: "a surcharge larger than the price it is part of",
		Explain: "The price on the line is everything that was paid, the surcharge included. " +
			"Add the two up if the bill shows them apart.",
		Example: ofCaliper("wrong|cost: 80.00 caliper, exchange; surcharge 120.00; for caliper-left\n" +
			"right|cost: 200.00 caliper, exchange; surcharge 120.00; for caliper-left\n"),
		Say: func(f source.Fault) (string, string) {
			return quote(f.Span.Text()) + " is more than the price, " + f.Word, "Write the whole price, the surcharge included."
		},
	},
	{
		Name: journal.DueNeedsSurcharge, Severity: problem.Error,
		Summary: "a day to return something by, but no surcharge",
		Explain: "On a cost, `due` is the day by which the old part must be back for its surcharge. " +
			"When a part should arrive stands on the part's own line.",
		Example: "---\nstage: rear axle\nwrong|cost: 120.00 caliper; due 2026-05-30\nright|parts:\nright|  caliper-left: ordered rear caliper, left; due 2026-05-30\nright|cost: 120.00 caliper; for caliper-left\n---\n",
		Message: "{word} on a cost without a surcharge",
		Help:    "Write \"; surcharge AMOUNT\", or put the day on the part's line if it is when the part should arrive.",
	},
	{
		Name: journal.SurchargeEarly, Severity: problem.Warning,
		Summary: "a surcharge that comes back before it was charged",
		Explain: "The credit counts, but there is nothing for it to settle. " +
			"Look for a cost that lacks its `surcharge`, for another part's id, or for a wrong date.",
		Example: ofCaliper("wrong|cost: 120.00 caliper, exchange; for caliper-left\nright|cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00\n" +
			"credit: 40.00 old caliper; as surcharge; for caliper-left\n"),
		Message: "a surcharge comes back for {word} before any was charged",
		Help:    "Write \"; surcharge AMOUNT\" on the cost of the part.",
	},
	{
		Name: journal.SurchargeOver, Severity: problem.Warning,
		Summary: "more surcharge that comes back than was charged",
		Explain: "The credit counts whole. " +
			"If part of it was a refund of the price, write that as a credit of its own.",
		Example: ofCaliper("cost: 120.00 caliper, exchange; for caliper-left; surcharge 40.00\n" +
			"wrong|credit: 48.00 old caliper; as surcharge; for caliper-left\n" +
			"right|credit:\nright|  - 40.00 old caliper; as surcharge; for caliper-left\nright|  - 8.00 carriage; for caliper-left\n"),
		Message: "more surcharge comes back for {word} than was charged",
		Help:    "Write what is no surcharge as a credit of its own.",
	},
	surchargeAsRefund,
}
