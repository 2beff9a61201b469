package virtual

import "sort"

// Stats is what a Rig has counted.
type Stats struct {
	Written   int64 // bytes the host has put on the wire
	Received  int64 // bytes that have reached the board
	Lost      int64 // of them, that found the receive buffer full
	Deaf      int64 // of them, that came while it was booting or writing
	Lines     int64
	Errors    int64 // lines refused
	Dropped   int64 // lines without a step
	Blocks    int64
	Alarms    int64
	Starts    int64 // motion from a standstill
	Underruns int64 // the look-ahead ran empty, and the next block came soon
	Fill      int   // most bytes in the receive buffer
	Queue     int   // most blocks in the look-ahead
	// BusySeconds is how long the wire to the board has carried bytes, or will
	// have by the time what is on it is across.
	BusySeconds float64
}

// Stats returns what has been counted so far.
func (r *Rig) Stats() Stats {
	s := r.stats
	s.BusySeconds = r.in.busy.seconds()
	return s
}

// Span is a stretch of motion at a constant step rate.
type Span struct {
	Start, End float64   // s since the board was powered
	From, To   []float64 // units of each axis, as the board counts
	Line       int64     // N word of the line it belongs to, or 0
}

// Step is one step pulse.
type Step struct {
	Seconds  float64 // since the board was powered
	Axis     int
	Dir      int8
	Position int64 // steps after it, as the board counts
}

// Record is the motion executed, slice by slice. Between slices the machine
// stands still. It grows by some 100 bytes a slice; Options.Forget keeps none.
type Record struct {
	axes     []Axis
	slices   []slice
	switches []Switch
}

// Record returns the motion executed so far; the slice that runs is in it as a
// whole.
func (r *Rig) Record() *Record { return &r.record }

// note records a slice that begins.
func (r *Rig) note(c *slice) {
	if !r.o.Forget {
		r.record.slices = append(r.record.slices, *c)
	}
}

// cut ends the last slice now, after k pulses.
func (d *Record) cut(now instant, k int64) {
	if n := len(d.slices); n > 0 {
		c := &d.slices[n-1]
		c.pulses, c.rest = k, 0
		c.rest = now - c.starts - c.lasts()
	}
}

// Len returns how many spans there are.
func (d *Record) Len() int { return len(d.slices) }

// Span returns span i.
func (d *Record) Span(i int) Span {
	c := &d.slices[i]
	s := Span{Start: c.starts.seconds(), End: (c.starts + c.lasts()).seconds(), Line: c.line}
	s.From, s.To = d.units(c, 0), d.units(c, c.pulses)
	return s
}

func (d *Record) units(c *slice, k int64) []float64 {
	counts := c.countsAfter(len(d.axes), k)
	out := make([]float64, len(d.axes))
	for i := range out {
		out[i] = d.axes[i].unitsAt(counts[i])
	}
	return out
}

// Steps calls each with every step, in the order of time, until it returns
// false.
func (d *Record) Steps(each func(Step) bool) {
	for i := range d.slices {
		c := &d.slices[i]
		was := c.countsAfter(len(d.axes), 0)
		for k := int64(1); k <= c.pulses; k++ {
			u := c.eighths(k)
			for a := range d.axes {
				now := c.begins[a] + c.stepsAfter(a, u)
				if now == was[a] {
					continue
				}
				s := Step{Seconds: (c.starts - c.lead + c.beat.every*instant(k)).seconds(), Axis: a, Dir: int8(now - was[a]), Position: now}
				was[a] = now
				if !each(s) {
					return
				}
			}
		}
	}
}

// At returns where the board counted each axis, in units, at a time since it
// was powered.
func (d *Record) At(seconds float64) []float64 {
	t := lasting(seconds)
	if len(d.slices) == 0 {
		return make([]float64, len(d.axes))
	}
	begun := sort.Search(len(d.slices), func(i int) bool { return d.slices[i].starts > t })
	c := &d.slices[max(begun-1, 0)]
	return d.units(c, c.pulsesBy(t))
}

// Place returns where the machine stands now, in units, whatever the board
// believes.
func (r *Rig) Place() []float64 {
	counts := r.counts()
	out := make([]float64, len(r.o.Axes))
	for i := range out {
		out[i] = r.place(i, counts[i])
	}
	return out
}
