package check

import (
	"fmt"
	"testing"
)

func TestRefundOver(t *testing.T) {
	const parts = "parts:\n  hose: arrived hose\n"
	for lines, want := range map[string]string{
		"cost: 20.00 hose; for hose\ncredit: 25.00 sent back; for hose":                                           `£5.00 more is refunded for "hose" than was paid`,
		"cost: 20.00 clamps\ncredit: 25.00 clamps sent back":                                                      `£5.00 more is refunded in the stage "body" than was paid`,
		"cost: 20.00 hose; for hose; surcharge 5\ncredit:\n  - 5.00; as surcharge; for hose\n  - 20.00; for hose": `£5.00 more is refunded for "hose"`,
		"cost:\n  - 30.00 clamps; stage rear axle\n  - 20.00 clamps\ncredit: 25.00 clamps sent back":              `£5.00 more is refunded in the stage "body" than was paid`,
		"credit: 20.00 sent back; for hose":                                                                       `£20.00 more is refunded for "hose"`,
		"cost: 20.00 hose; for hose\ncredit: 20.00 sent back; for hose":                                           "",
		"credit: 20.00 old panels; as spares":                                                                     "",
		"credit: 20.00 the old one; as scrap; for hose":                                                           "",
		"cost: 20.00 hose; for hose; share 1/4\ncredit: 20.00 sent back; for hose":                                "",
		"cost: 20,00 hose; for hose\ncredit: 20.00 sent back; for hose":                                           "", // the cost was left out
	} {
		wantOf(t, "refund-over", "---\nstage: body\n"+parts+lines+"\n---\n", want)
	}
}

func TestSurchargeAsRefund(t *testing.T) {
	const cost = "---\nstage: body\nparts:\n  hose: arrived hose\ncost: 20.00 hose; for hose; surcharge 5\ncredit:\n"
	for lines, want := range map[string]string{
		"  - 5.00 surcharge back; for hose":                                   `Write "; as surcharge" if`,
		"  - 5.00 for the old one; for hose":                                  `the surcharge of "hose" stays open`,
		"  - 5.00 wrong length; for hose":                                     "",
		"  - 5.00 surcharge back; as surcharge; for hose":                     "",
		"  - 5.00 surcharge back; as refund; for hose":                        "",
		"  - 5.00 surcharge back":                                             "",
		"  - 5.00 back; as surcharge; for hose\n  - 2.00 old price; for hose": "", // it is closed
	} {
		wantOf(t, "surcharge-as-refund", cost+lines+"\n---\n", want)
	}
}

// What is paid for the vehicle belongs where its price does; what the work itself needs does not.
func TestBoughtElsewhere(t *testing.T) {
	const card = "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nfees:\n  buyer's fee: 12%%\nstages:\n%s  body: paint and doors\n---\n-- 2026-04-11.md --\n---\nstage: body\ncost:\n"
	buying := fmt.Sprintf(card, "  buying: purchase\n")
	const price = "  - 900.00 hammer price; as vehicle\n"
	for lines, want := range map[string]string{
		buying + price: `counts in "body", not in "buying"`,
		buying + "  - 900.00 hammer price; as vehicle; stage body":                                `Corrected: - 900.00 hammer price; as vehicle; stage buying`,
		buying + "  - 900.00 hammer price; as vehicle; stage buying":                              "",
		buying + "  - 900.00 hammer; as vehicle; stage buying\n  - 120.00 delivery; as transport": `Corrected: - 120.00 delivery; as transport; stage buying`,
		buying + "  - 120.00 delivery; as transport":                                              "",
		buying + "  - 180.00 Buyer's fee; as fees":                                                "Write \"; stage buying\"",
		buying + "  - 55.00 test; as fees":                                                        "",
		buying + "  - 12.00 fuel; as transport; stage body\n  - 6.00 primer":                      "",
		fmt.Sprintf(card, "") + price + "  - 180.00 buyer's fee; as fees":                         "",
	} {
		wantOf(t, "bought-elsewhere", lines+"\n---\n", want)
	}
}

// What was taken in part exchange is one cost of the vehicle that it became, or all of them together.
func TestPartExchange(t *testing.T) {
	const yard = "-- garage.md --\n---\ngarage: The yard\ncurrency: GBP\n---\n-- halden/build.md --\n---\nbuild: Halden\ncurrency: GBP\n---\n-- halden/2026-04-11.md --\n---\n" +
		"sale:\n  - agreed 5,150.00\n  - part exchange 900.00; into %s\n---\n-- skeld/build.md --\n---\nbuild: Skeld\ncurrency: %s\nstages:\n  buying: purchase\n---\n-- skeld/2026-04-12.md --\n---\nstage: buying\ncost:\n%s\n---\n"
	for _, c := range []struct{ into, currency, costs, want string }{
		{"skeld", "GBP", "  - 900.00 taken in part exchange", ""},
		{"skeld", "GBP", "  - 900.00 taken in part exchange\n  - 45.00 the second key", ""},
		{"skeld", "GBP", "  - 500.00 taken in part exchange\n  - 400.00 the rest of it", ""},
		{"skeld", "GBP", "  - 900.00 fetching it; as transport", `in "skeld" the vehicle cost £0.00`},
		{"skeld", "GBP", "  - 800.00 taken in part exchange\n  - 45.00 the second key", `here the part exchange is £900.00, and in "skeld" the vehicle cost £845.00`},
		{"skeld", "EUR", "  - 1050.00 taken in part exchange", ""},
		{"skelt", "GBP", "  - 900.00 taken in part exchange", `the garage has no build in a folder "skelt"`},
	} {
		wantOf(t, "part-exchange", fmt.Sprintf(yard, c.into, c.currency, c.costs), c.want)
	}
}
