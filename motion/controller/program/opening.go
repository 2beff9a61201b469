package program

import "math"

// Stop is the line at which a controller waits for its operator: program stop
// (NISTIR 6556, section 3.6.1).
const Stop = "M0"

// Opening is what is between the way to the start and the motion.
type Opening struct {
	Stop bool // wait for the operator
	// CountIn is how many s pass before the motion, at least; 0 = no more than
	// buffers need to fill.
	CountIn float64
	Mark    Mark // the sync mark, before the motion and after it
}

// Mark is a sync mark, as a program makes it at rest. Lengths are s, as they are told; the
// zero Mark is none.
type Mark struct {
	On, Off      string  // lines that switch an output; "" = the axis twitches
	Axis         int     // of the plan, that goes Out and back
	Out          float64 // mm or degrees
	Length, Rest float64 // how long it lasts, and from then to the motion
	Before       float64 // from its beginning to the motion
	After        float64 // from the end of all motion to the second; 0 = none
}

// there tells whether there is a mark.
func (m Mark) there() bool { return m.Before > 0 && (m.On != "" || m.Out != 0) }

// Open says how the take opens. It must be told before the first Next.
func (p *Program) Open(o Opening) { p.opening = o }

// Pause returns the seconds of the dwell before the motion: the count-in, or what
// buffers need, in whole grains where the controller dwells in those.
func (o Opening) Pause(grain float64) float64 {
	s := max(o.CountIn, fillSeconds)
	if o.Mark.there() { // it begins at rest
		return o.dark(grain) + o.Mark.Before
	}
	return wholeGrains(s, grain)
}

// dark is the dwell before the sync mark.
func (o Opening) dark(grain float64) float64 {
	return wholeGrains(max(o.CountIn-o.Mark.Before, fillSeconds), grain)
}

func wholeGrains(s, grain float64) float64 {
	if grain > 0 {
		return grain * math.Ceil(s/grain-grainHair)
	}
	return s
}

// grainHair is what a time may be above a whole number of grains, in grains, and
// count as that number: a word has six decimals.
const grainHair = 1e-6

// open makes the lines between the way to the start and the motion.
func (p *Program) open() {
	if p.opening.Stop {
		p.line(Stop)
	}
	if m := p.opening.Mark; m.there() {
		p.dwell(p.opening.dark(p.grain), p.covered)
		p.mark()
		p.dwell(m.Rest, p.covered)
		return
	}
	p.dwell(p.opening.Pause(p.grain), p.covered)
}

// mark makes the lines of a sync mark.
func (p *Program) mark() {
	m := p.opening.Mark
	if m.On != "" {
		p.line(m.On)
		p.dwell(m.Length, p.covered)
		p.line(m.Off)
		return
	}
	p.twitch(m.Out)
	p.dwell(m.Length, p.covered)
	p.twitch(0)
}

// twitch makes the line that takes the axis of a twitch to so much from where it rests.
func (p *Program) twitch(out float64) {
	i := p.opening.Mark.Axis
	a := &p.teller.Axes[i]
	counts := a.Target + int64(math.Round(out*math.Pow10(p.decimals)))
	p.buf = appendWord(append(p.buf[:0], "G1 "...), p.letters[i], counts, p.decimals)
	p.buf = p.teller.Feed.Append(append(p.buf, " F"...), p.maxSpeed[i]*gentleShare*secondsMinute)
	p.push(p.buf, p.covered, true)
}

// markAfter makes the lines of the second sync mark, after all motion.
func (p *Program) markAfter() {
	if m := p.opening.Mark; m.there() && m.After > 0 {
		p.dwell(m.After, p.covered)
		p.mark()
	}
}
