package check

import "testing"

// TestHonestWords holds every check that looks into descriptions to words that only
// look like what it searches for. A warning of one of them would be a false alarm.
func TestHonestWords(t *testing.T) {
	if found := names(proofread(t, folder(honestBuild))); len(found) > 0 {
		t.Errorf("%q:\n%s", found, printed(t, proofread(t, folder(honestBuild))))
	}
}

const honestBuild = `-- build.md --
---
build: Halden
currency: GBP
vat: 20%
stages:
  buying: budget 1500; purchase
  rear axle: beam and brakes; budget 260 340 520; system suspension
  body: outer panels, 4 of them, used where they can be had; budget 400
due checks:
  tow-test: after electrical; because the socket, as fitted, feeds the trailer from 2015 on
---
-- 2026-04-11.md --
---
stage: body
odometer: 91252 mi
title: Wheels of 17" at last, a "good" day
time:
  - 1h stage door painted
  - 2h and the rest tomorrow
  - 40m on the phone to Tidewell
  - 2h 40 rivets drilled
  - 1h by hand, private lane
  - 19:30-21:15 and tidied up
  - 2h + a look at the rail
  - 3h x-ray of the rail
  - 1h half the door
  - 1h both hands 4 mm apart
  - 3h 40 bolts
  - 2h 20 mm hole in the rail
  - 2h 15 amp fuse found blown
  - 2h 30 seized bolts
  - 2h primer, 24h to dry
  - 1h hose laid, 3m of it
  - 22:00-1:30 night shift
  - 7:00-20:00 a long day
  - 2h filler, 12h hardening
  - 3h wet sanding, each panel twice over
  - 1h rust dealt with, leaks in the boot too
  - 2h with Del, both doors
  - 4h wiring, 12 V all round
  - 10:00-12:00 lunch after that
cost:
  - 64 x 0.45 fetching the axle, 64 miles in my own car; as transport
  - 18.00 supper for Dag; as labour
  - 50.00 deposit on the tailgate; for tailgate
  - 130.00 the rest; for tailgate
  - 40.00 headlamp from the hatchback; for headlamp-left
  - 55.00 test fee; as fees; on 2026-07-20
  - 55.00 old receipt; as fees; on 2025-01-20
  - 12.00 stamps for rear lamp
  - 12.00 carriage for two parcels from Tidewell; from Marl Parcels
  - 9.00 seals; from Tidewell Dismantlers
  - 5.00 tip to the driver
  - 240 grit discs, 50 of them
  - 12.50 and a half hour's wait
  - 20.00 to fill the tank
  - 30.00 less than the other one
  - 30.00 plus a smile
  - 8.00 each way on the ferry
  - 6.40 25 M8 bolts
  - 7 2.5 mm drills
  - 25 hose on the off side
  - 15.00 tax on the road
  - 45.00 as good as given away
  - 45.00 window as seen
  - 3.00 photo of the door
  - 3.00 photo booth door.jpg print
  - 12.00 number plate
  - 120.00 day with a man due Monday
  - 40 hob (RRP 60.00)
  - 40 lamp reduced from 60.00
  - 60 diesel, 41.20 litres
  - 18 oil 5.00 litre can
  - 9 O-ring 12.37 mm
  - 20 tracker part no 44.21
  - 12.00 cargo net
  - 36 storage 3 days @ 12
  - 15 euro pallet
  - 20 hire before vat rise
  - 20 bush 19.05 bore
  - 5.00 dollar store tape
  - 20.00 clips, pack of 2
  - 14.00 nuts (pack x 12)
  - 9.50 hose, 2 off the shelf
parts:
  tailgate: needed tailgate, silver
  headlamp-left: fitted headlamp from the shelf; used; free
  hinge: needed hinge new to the market
  bulb: needed bulb of 12 V, number 2 of 2
  door-seal: ordered seal for the 2015 model from Tidewell
  badge: needed badge, as new
  glass: needed glass, free of scratches
  door-seal-2: needed seal, the other
  caliper: needed caliper, not used before; system brakes
  clip: arrived and fitted well, but for one
  wing: ordered, needed by Friday
checks:
  tow-test: passed by the book
  lamp-aim: done at 10 m from a wall
  alignment: done at Tidewell
  brake-test: failed, 20 % at the rear
  fume-check: done, no leaks
  restraint-scan: passed, not a drip
  structure-measure: passed, after it failed in May
  insulation-test: done, leaks mended
  horn-test: passed, not only by day
  coolant-leak-check: passed, dripping wet day
  camber-check: passed, fails nobody
  boot-test: done, leaks in the boot dealt with
readings:
  disc: 8.7 mm at its thinnest
  gap: 4.1 mm max play felt
  bolt: 110 Nm new bolt
  door-gap-1: 4.1 mm
  door-gap-2: 4.3 mm
  disc-fl: 8.7 mm
  disc-fr: 8.6 mm
  seat-width: 8 mm, was 9
  gas-pressure: 30 mbar
  gas-pressure-after: 31 mbar
remaining:
  body: 100 - 2 doors left
  rear axle: 40 80 120 in 3 hours
---
- [ ] job door-seal-l: due for a change
- [ ] job door-edge: it waits for paint
- [ ] job door-lock: needs 2h of heat
- [ ] decide door-skin: repair, new or used
- [ ] inspect sill-left: bent? 2026 photo shows it
- [ ] job fuel-cap: the photo cap.jpg shows how
- [ ] **Bold** words about a job
- [ ] *re-paint*: the door
- [ ] inspect: re-look at it: once dry
- [x] done: swept the floor
- [ ] sill-left: done by Friday, I hope
- [ ] sill-left: fixed seats squeak
- [ ] job mot-test: was due before I bought it; due 2026-03-31
- [ ] call the insurer about the glass
- [x] call the insurer about the door
- [ ] Major service due in spring
- [ ] temp sensor reads low
- [ ] the old bodge on the loom
- [ ] due soon, the road tax

~~~scan engine
no faults
~~~
~~~scan engine-2
no faults
~~~
- **[x](https://example.org)** a link
`
