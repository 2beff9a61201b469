package virtual

import "math"

// minSteps is how many step events a slice has at least, the last of a block
// aside: with one or less the rate of a slow start would jump about.
const minSteps = 1.25

// slice is a stretch of one block at a constant step rate.
type slice struct {
	starts instant // when it began to run
	beat   beat
	pulses int64   // interrupts it lasts
	rest   instant // after the last of them
	even   bool    // steps come at the ends of their shares, as a player of steps has them
	lead   instant // by which the first comes early
	from   int64   // eighths of a step event of the block done before it
	steps  [maxAxes]int64
	begins [maxAxes]int64
	events int64
	line   int64
	speed  float64 // path units/s at its end
}

// generator cuts the first block of the planner into slices.
type generator struct {
	opened bool  // the first block has been begun
	left   int64 // step events of it not yet given out
	owed   float64
	done   int64 // eighths of step events given out
	speed  float64
}

// abandon forgets the block in hand.
func (g *generator) abandon() { *g = generator{} }

// open begins the first block, if that has not been done.
func (g *generator) open(b *block) {
	if !g.opened {
		g.opened, g.left, g.owed, g.done = true, b.events, 0, 0
	}
}

// next gives out the next slice of b. When hold is set it slows down instead
// of following the plan. The slice may have no pulses.
func (g *generator) next(b *block, exit2 float64, hold bool, o *Options) slice {
	g.open(b)
	var p profile
	if hold {
		p = braking(b.length, b.accel, b.entry2)
	} else {
		p = newProfile(b.length, b.accel, b.nominal, b.entry2, exit2)
	}
	took, left, speed := g.advance(&p, b, hold, o.sliceSeconds())
	s := g.cut(b, took, left, o)
	b.length, b.entry2 = left, speed*speed
	g.speed, s.speed = speed, speed
	return s
}

// walk is a slice in the making.
type walk struct{ took, way, speed, end float64 }

// advance follows the profile for one slice time, or several where one is too
// short for a step. It returns the time taken, the length left and the speed
// then.
func (g *generator) advance(p *profile, b *block, hold bool, every float64) (took, left, speed float64) {
	least := minSteps / b.scale
	w := walk{speed: math.Sqrt(b.entry2), end: every}
	for i := range p {
		for f := &p[i]; f.lasts > 0; {
			w.follow(f, i == 0)
			if w.took < w.end {
				continue
			}
			if w.way >= least && p.lasts() > 0 {
				return w.took, math.Max(0, b.length-w.way), w.speed
			}
			for w.took >= w.end {
				w.end += every
			}
		}
	}
	if hold && w.speed == 0 {
		return w.took, math.Max(0, b.length-w.way), 0
	}
	return w.took, 0, w.speed
}

// follow takes one phase to its end, or to the end of the slice time. A way up
// that ends in a later slice time than it began in is given the time of the
// whole slice so far, at the mean of the two speeds: boards do that (the rows
// of firmware_passes.tsv at 300 mm/s², 100 segments, are 7.5 ms later for it).
func (w *walk) follow(f *phase, up bool) {
	room := w.end - w.took
	if room < f.lasts {
		way, speed := f.after(room)
		w.way, w.speed, w.took = w.way+way, speed, w.end
		f.lasts, f.speed = f.lasts-room, speed
		return
	}
	way, speed := f.after(f.lasts)
	w.way += way
	if up && w.took > 0 {
		w.took += 2 * w.way / (f.speed + speed)
	} else {
		w.took += f.lasts
	}
	w.speed, f.lasts = speed, 0
}

// cut turns a stretch into whole step events at one rate. The time of a
// broken step is owed to the next slice.
func (g *generator) cut(b *block, took, left float64, o *Options) slice {
	events := b.scale * left
	whole := int64(math.Ceil(events))
	s := slice{from: g.done, steps: b.steps, begins: b.begins, events: b.events, line: b.line}
	count := g.left - whole
	share := float64(g.left) - events
	if count <= 0 || share <= 0 {
		g.owed += took
		return s
	}
	interval := (took + g.owed) / share
	s.beat = o.Timer.beat(interval)
	s.beat.every = o.drift(s.beat.every)
	s.pulses = count << s.beat.level
	g.owed = (float64(whole) - events) * interval
	g.left = whole
	g.done += count << finest
	return s
}
