package main

import (
	"fmt"
	"image/color"
	"math"
)

// ---- the whole car, from its left

func (c *canvas) drive(sky, floor color.NRGBA) {
	c.rect(sky, 0, 0, width, height)
	c.rect(floor, 0, 430, width, 170)
}

// garage stands behind the car.
func (c *canvas) garage() {
	c.fill(rgb(0xe2d9c6), "M40 430 L40 166 L235 84 L430 166 L430 430Z")
	c.fill(shade, "M22 178 L235 88 L448 178 L448 162 L235 70 L22 162Z")
	c.rect(pale, 95, 215, 280, 215)
	for y := float32(258); y < 430; y += 43 {
		c.rect(faint(iron, 60), 95, y, 280, 3)
	}
}

func (c *canvas) hedge() {
	d := dice(7)
	for x := float32(440); x < 840; x += 34 {
		c.disc(rgb(0xa7b9b0), x+36, 405-d.upTo(22), 40+d.upTo(14))
	}
	c.rect(ground, 0, 430, width, 170)
}

func (c *canvas) wheel(x, y float32) {
	c.disc(ink, x, y, 50)
	c.disc(pale, x, y, 33)
	c.disc(iron, x, y, 27)
	for i := range 5 {
		a := float64(i)*2*math.Pi/5 - math.Pi/2
		c.line(pale, 8, fmt.Sprintf("M%g %g L%g %g", x, y, x+29*float32(math.Cos(a)), y+29*float32(math.Sin(a))))
	}
	c.disc(pale, x, y, 9)
	c.disc(ink, x, y, 3.5)
}

// estate draws the car; where it is crushed, everything behind the rear wheel differs.
func (c *canvas) estate(crushed bool) {
	c.ellipse(shade, 400, 484, 345, 15)
	body := "M84 448 L78 400 Q74 372 92 356 Q118 334 170 326 L272 312 L348 246 Q366 231 398 230 L628 230 Q652 230 666 246 "
	if crushed {
		body += "L682 300 L662 330 L676 356 L656 384 L680 380 L664 410 L676 440 L640 452Z"
	} else {
		body += "L712 318 Q724 326 726 344 L730 404 Q732 440 716 452Z"
	}
	c.fill(grey, body)
	// the shoulder catches light, the sill lies in shadow
	if crushed {
		c.fill(light, "M92 356 Q118 334 170 326 L272 312 L640 310 L636 332 L280 334 L120 352Z")
		c.fill(iron, "M84 448 L82 428 L640 432 L662 440 L640 452Z")
	} else {
		c.fill(light, "M92 356 Q118 334 170 326 L272 312 L710 314 Q718 322 720 330 L280 334 L120 352Z")
		c.fill(iron, "M84 452 L82 430 L716 432 L720 446 L716 452Z")
	}
	// glass
	c.fill(ink, "M286 312 L352 254 Q366 242 392 242 L626 242 Q646 242 654 256 L672 308 L640 310Z")
	c.fill(pale, "M304 308 L360 258 Q370 250 392 250 L414 250 L414 308Z")
	c.fill(pale, "M424 250 L530 250 L530 308 L424 308Z")
	c.fill(pale, "M540 250 L622 250 Q640 250 646 262 L658 304 L540 306Z")
	for _, x := range []float32{330, 440, 556} {
		c.fill(faint(white, 150), fmt.Sprintf("M%g 306 L%g 252 L%g 252 L%g 306Z", x+18, x+54, x+74, x+38))
	}
	// roof rail
	c.line(iron, 5, "M404 224 L618 224")
	c.line(iron, 5, "M420 224 L420 231")
	c.line(iron, 5, "M604 224 L604 231")
	// doors
	c.line(iron, 2.5, "M284 318 L282 430")
	c.line(iron, 2.5, "M419 312 L419 430")
	c.line(iron, 2.5, "M536 312 L534 372")
	c.box(iron, 382, 338, 28, 7, 3)
	c.box(iron, 500, 338, 28, 7, 3)
	c.fill(grey, "M268 308 L296 296 L302 312 L274 318Z") // mirror
	c.line(iron, 2, "M268 308 L296 296 L302 312 L274 318Z")
	// front lamp and bumper
	c.fill(white, "M94 364 Q104 350 140 342 L150 352 Q132 368 100 374Z")
	c.line(iron, 2, "M94 364 Q104 350 140 342 L150 352 Q132 368 100 374Z")
	c.line(iron, 3, "M82 404 L140 404")
	// arches, cut off at the sill
	for _, x := range []float32{196, 586} {
		c.fill(ink, fmt.Sprintf("M%g 453 L%g 436 C%g 402 %g 374 %g 374 C%g 374 %g 402 %g 436 L%g 453Z", x-62, x-62, x-62, x-34, x, x+34, x+62, x+62, x+62))
	}
	rear := float32(586)
	if crushed {
		rear = 574 // pushed forward
	}
	c.wheel(196, 436)
	c.wheel(rear, 436)
}

func tailCrushed(c *canvas) {
	c.drive(paper, ground)
	c.garage()
	c.hedge()
	c.estate(true)
	// the quarter behind the arch, in facets
	c.fill(light, "M640 310 L668 306 L660 336 L678 356 L650 362 L636 338Z")
	c.fill(iron, "M650 362 L678 356 L656 386 L640 380Z")
	c.fill(light, "M640 380 L656 386 L682 378 L664 410 L646 402Z")
	c.fill(rgb(0x39424a), "M660 336 L686 330 L678 356Z")
	c.line(ink, 2.5, "M640 310 L636 338 L650 362 L640 380 L646 402 L664 410")
	c.line(ink, 2.5, "M650 362 L678 356")
	c.line(ink, 2.5, "M618 352 L632 368 L622 390")
	// where the lamp was
	c.fill(ink, "M656 308 L684 304 L690 330 L664 340Z")
	c.fill(rust, "M656 308 L670 306 L664 324 L668 338 L660 336Z")
	// the tailgate, dented and not shut
	c.fill(grey, "M650 234 L668 240 L704 300 L694 322 L712 352 L700 378 L690 352 L676 326 L684 304Z")
	c.fill(light, "M668 240 L704 300 L694 322 L712 352 L704 362 L684 322 L692 300Z")
	c.fill(ink, "M664 252 L686 292 L678 302 L658 258Z")
	c.line(ink, 3, "M668 240 L704 300 L694 322 L712 352 L700 378")
	// bumper skin come loose, tow bar bent down
	c.fill(iron, "M644 408 L696 396 L716 414 L702 430 L708 448 L650 452Z")
	c.fill(rgb(0x5d6872), "M644 408 L696 396 L716 414 L660 424Z")
	c.line(ink, 2.5, "M696 396 L716 414 L702 430 L708 448")
	c.line(ink, 9, "M652 450 L698 466 L708 482")
	c.disc(ink, 709, 484, 9)
	// strap
	c.line(amber, 7, "M704 364 L712 420 L706 482")
	c.box(teal, 701, 396, 20, 30, 4)
	c.line(pale, 3, "M706 404 L716 404")
	// pieces on the drive
	c.fill(rust, "M724 500 L744 490 L748 504Z")
	c.fill(rust, "M762 512 L776 504 L774 518Z")
	c.fill(amber, "M744 520 L756 514 L758 524Z")
	c.fill(iron, "M650 516 L682 508 L674 522Z")
}

func finished(c *canvas) {
	c.drive(paper, ground)
	c.disc(faint(amber, 150), 640, 118, 44)
	c.garage()
	c.hedge()
	c.estate(false)
	// tail lamp, tailgate gap, bumper, tow bar
	c.fill(rust, "M688 322 L712 320 Q722 328 724 344 L724 364 L700 360Z")
	c.fill(amber, "M697 342 L723 340 L724 350 L698 350Z")
	c.line(iron, 2.5, "M668 250 L694 318 L702 362 L704 396")
	c.line(iron, 3, "M648 398 L728 396")
	c.line(ink, 8, "M708 448 L744 448 L746 436")
	c.disc(ink, 746, 432, 8)
	c.box(iron, 660, 344, 18, 18, 3) // fuel flap
	c.box(grey, 662, 346, 14, 14, 2)
	// shine
	c.line(faint(white, 130), 4, "M170 334 L272 323 L664 322")
	c.line(faint(white, 60), 10, "M296 392 L406 392")
	c.line(faint(white, 60), 10, "M432 392 L520 392")
}

// ---- the back, from behind

func fromBehind(c *canvas, mended bool) {
	c.rect(paper, 0, 0, width, height)
	c.rect(ground, 0, 470, width, 130)
	c.ellipse(shade, 400, 528, 330, 20)
	// stands or wheels
	c.box(ink, 128, 372, 88, 158, 20)
	c.box(ink, 584, 372, 88, 158, 20)
	// shell
	c.fill(grey, "M236 84 Q250 62 290 60 L510 60 Q550 62 564 84 L640 236 Q664 260 668 300 L672 452 L128 452 L132 300 Q136 260 160 236Z")
	c.fill(light, "M236 84 Q250 62 290 60 L510 60 Q550 62 564 84 L574 104 L226 104Z")
	// aperture, with the rear seats inside
	c.fill(ink, "M258 112 L542 112 L600 250 L600 352 L200 352 L200 250Z")
	c.fill(iron, "M300 180 L392 180 L396 330 L284 330Z")
	c.fill(iron, "M408 180 L500 180 L516 330 L404 330Z")
	c.box(iron, 324, 150, 44, 26, 8)
	c.box(iron, 432, 150, 44, 26, 8)
	// floor of the boot
	c.fill(shade, "M222 352 L262 306 L538 306 L578 352Z")
	// right lamp (and the left one once the panel is new)
	lamp := func(x0, x1, x2 float32) {
		c.fill(rust, fmt.Sprintf("M%g 252 L%g 262 L%g 350 L%g 352Z", x0, x1, x2, x0))
		c.fill(amber, fmt.Sprintf("M%g 292 L%g 294 L%g 312 L%g 312Z", x0, x1, x2, x0))
	}
	if mended {
		// panel in primer, plug welds, both pockets open
		c.fill(primer, "M168 352 L632 352 L636 434 L164 434Z")
		c.fill(primer, "M156 262 L198 252 L200 352 L150 352Z")
		c.fill(primer, "M602 252 L644 262 L650 352 L602 352Z")
		c.fill(ink, "M166 278 L190 270 L190 336 L160 338Z")
		c.fill(ink, "M610 270 L634 278 L640 338 L610 336Z")
		for x := float32(186); x < 630; x += 24 {
			c.disc(iron, x, 364, 4)
			c.disc(iron, x, 422, 4)
		}
		c.box(ink, 378, 356, 44, 16, 5)
		c.fill(faint(white, 90), "M168 376 L632 376 L633 386 L167 386Z")
		railEnd(c, 208, false)
		railEnd(c, 544, false)
		return
	}
	lamp(602, 644, 650)
	c.fill(light, "M400 352 L632 352 L636 434 L400 434Z")
	// left half folded in, torn at the lamp pocket
	c.fill(iron, "M156 262 L198 252 L202 300 L186 322 L204 350 L176 352 L150 340Z")
	c.fill(ink, "M164 282 L188 274 L180 312 L192 336 L160 330Z")
	c.fill(light, "M168 360 L250 376 L330 348 L400 352 L400 434 L330 430 L262 412 L206 438 L164 426Z")
	c.fill(faint(ink, 110), "M168 360 L250 376 L330 348 L346 366 L256 396 L180 384Z")
	c.fill(faint(ink, 80), "M206 438 L262 412 L330 430 L322 440 L262 428Z")
	c.line(ink, 4, "M168 360 L250 376 L330 348 L400 352")
	c.line(ink, 3, "M250 376 L262 412 L206 438")
	c.line(ink, 3, "M330 348 L322 392 L346 432")
	c.line(ink, 3, "M262 412 L322 392")
	c.line(rust, 5, "M176 352 L196 366 L188 384 L204 396")
	railEnd(c, 208, true)
	railEnd(c, 544, false)
	c.disc(ink, 400, 368, 6)
}

func railEnd(c *canvas, x float32, folded bool) {
	if folded {
		c.fill(iron, fmt.Sprintf("M%g 396 L%g 388 L%g 406 L%g 424 L%g 446 L%g 458 L%g 440 L%g 420Z", x, x+38, x+56, x+40, x+58, x+14, x-6, x+12))
		c.line(ink, 3, fmt.Sprintf("M%g 402 L%g 414 L%g 404", x+6, x+22, x+50))
		c.line(ink, 3, fmt.Sprintf("M%g 430 L%g 438 L%g 444", x+2, x+24, x+54))
		c.disc(ink, x+24, 425, 7)
		c.line(amber, 4, circle(x+26, 424, 52, 46))
		return
	}
	c.box(iron, x-4, 392, 56, 58, 5)
	c.box(ink, x+6, 402, 36, 38, 4)
	c.disc(pale, x+1, 398, 3)
	c.disc(pale, x+47, 398, 3)
	c.disc(pale, x+1, 444, 3)
	c.disc(pale, x+47, 444, 3)
}
