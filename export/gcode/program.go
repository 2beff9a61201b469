package gcode

import (
	"bufio"
	"fmt"
	"math"
	"strconv"

	"seamrail/motion/rig"
	"seamrail/motion/segment"
	"seamrail/motion/trajectory"
)

const (
	// gentleShare is the share of its greatest speed at which an axis goes to
	// the start: a tabletop rail that can do 400 mm/s takes ten seconds over
	// its length, time to see what it is about to meet.
	gentleShare = 0.1
	// fillSeconds is the dwell before the motion: it lets the controller's
	// buffers fill, so that the first blocks are not starved.
	fillSeconds = 0.5
	// feedDigits is how many significant digits F words have: the duration of
	// a block is then good to less than a millionth.
	feedDigits = 7
	// dwellDecimals is how many decimals G4 words have: a microsecond.
	dwellDecimals = 6
	// shortestDwell is the last of those decimals.
	shortestDwell = 1e-6
	// longestLine is what NISTIR 6556 allows where the rig says nothing.
	longestLine   = 256
	secondsMinute = 60
)

// program writes lines and knows what the controller has been told so far.
type program struct {
	out      *bufio.Writer
	blocks   segment.Take
	axes     []axis
	style    rig.FeedStyle
	decimals int
	longest  int
	owed     float64 // s that have passed and no line has taken
	buf      []byte
	err      error
}

func newProgram(out *bufio.Writer, t *trajectory.Trajectory, take segment.Take) *program {
	c := t.Rig().Controller
	p := &program{out: out, blocks: take, style: c.Feed, decimals: c.Decimals, longest: longestLine}
	if c.LineLength > 0 {
		p.longest = min(c.LineLength, longestLine)
	}
	for i := range t.AxisCount() {
		p.axes = append(p.axes, newAxis(t, i, c.Decimals))
	}
	return p
}

// line writes one line, or keeps the error that it does not fit.
func (p *program) line(s string) { p.write([]byte(s)) }

func (p *program) write(s []byte) {
	if p.err != nil {
		return
	}
	if len(s) > p.longest {
		p.err = fmt.Errorf("line %q has %d characters and the controller reads %d; fewer decimals or axes would do",
			s, len(s), p.longest)
		return
	}
	if _, err := p.out.Write(s); err != nil {
		p.err = err
		return
	}
	p.err = p.out.WriteByte('\n')
}

// goToStart writes the modes and the way to the start, one axis at a time, so
// that each keeps to its own gentle speed.
func (p *program) goToStart() {
	p.line("G21 G90")
	p.line("G94")
	p.comment("to the start")
	p.aim(p.blocks.Rest)
	for i := range p.axes {
		a := &p.axes[i]
		p.buf = append(p.buf[:0], "G1 "...)
		p.buf = append(a.word(p.buf, p.decimals), " F"...)
		p.write(appendFeed(p.buf, a.maxSpeed*gentleShare*secondsMinute))
		a.told, a.toldSteps = a.target, a.targetSteps
	}
	p.dwell(fillSeconds)
}

// aim sets where every axis is to be.
func (p *program) aim(end []float64) {
	for i := range p.axes {
		p.axes[i].aim(end[i])
	}
}

// steps tells whether any motor steps, and any word changes, on the way from
// where the controller has been told to be to where the axes are to be.
func (p *program) steps() bool {
	for i := range p.axes {
		if a := &p.axes[i]; a.target != a.told && a.targetSteps != a.toldSteps {
			return true
		}
	}
	return false
}

// astray tells whether any word changes on that way.
func (p *program) astray() bool {
	for i := range p.axes {
		if p.axes[i].target != p.axes[i].told {
			return true
		}
	}
	return false
}

// move writes a G1 line of the axes whose words change.
func (p *program) move(sec float64) {
	feed := secondsMinute / sec
	if p.style == rig.PerMinute {
		feed *= p.distance()
	}
	p.buf = append(p.buf[:0], "G1"...)
	for i := range p.axes {
		a := &p.axes[i]
		if a.target != a.told {
			p.buf = a.word(append(p.buf, ' '), p.decimals)
		}
		a.told, a.toldSteps = a.target, a.targetSteps
	}
	p.write(appendFeed(append(p.buf, " F"...), feed))
}

// distance is the length that a G94 feed counts: that of X Y Z if any of them
// moves, else that of the other axes (NISTIR 6556, section 2.1.2.5, from
// memory).
func (p *program) distance() float64 {
	linear, others := 0.0, 0.0
	for i := range p.axes {
		a := &p.axes[i]
		d := float64(a.target-a.told) / a.grain
		if a.letter == 'X' || a.letter == 'Y' || a.letter == 'Z' {
			linear += d * d
		} else {
			others += d * d
		}
	}
	if linear > 0 {
		return math.Sqrt(linear)
	}
	return math.Sqrt(others)
}

func (p *program) dwell(sec float64) {
	p.buf = strconv.AppendFloat(append(p.buf[:0], "G4 P"...), sec, 'f', dwellDecimals, 64)
	p.write(trimZeros(p.buf))
}

// appendFeed appends f with feedDigits significant digits, in plain notation.
func appendFeed(buf []byte, f float64) []byte {
	places := feedDigits - 1 - int(math.Floor(math.Log10(f)))
	buf = strconv.AppendFloat(buf, f, 'f', max(places, 1), 64)
	return trimZeros(buf)
}

// trimZeros drops the zeros that end a number with a point in it.
func trimZeros(buf []byte) []byte {
	for buf[len(buf)-1] == '0' {
		buf = buf[:len(buf)-1]
	}
	if buf[len(buf)-1] == '.' {
		buf = buf[:len(buf)-1]
	}
	return buf
}
