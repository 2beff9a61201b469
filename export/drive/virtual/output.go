package virtual

import (
	"encoding/binary"
	"slices"
	"strings"
)

// Output is what the board switches: by lines, or as one of a step player's.
type Output struct {
	Name    string
	On, Off string
	Number  int  // of a step player's, from 1
	Lacks   bool // the board does not know its words
}

// Switch is an output being switched.
type Switch struct {
	Seconds float64 // since the board was powered
	Output  string
	On      bool
}

// Switches returns what has been switched, in the order of time.
func (d *Record) Switches() []Switch { return d.switches }

// outputsBy returns the outputs that a line switches, or nil.
func (r *Rig) outputsBy(text string) []Output {
	var out []Output
	for _, o := range r.o.Outputs {
		if sameLine(text, o.On) || sameLine(text, o.Off) {
			out = append(out, o)
		}
	}
	return out
}

// sameLine tells whether a line is another one but for blanks and case.
func sameLine(text, line string) bool {
	return line != "" && string(counting([]byte(text))) == string(counting([]byte(line)))
}

// obeyOutputs does what a line says of outputs: one word may switch off several.
func (r *Rig) obeyOutputs(text string) {
	for _, o := range r.outputsBy(text) {
		r.put(o.Name, sameLine(text, o.On))
	}
}

// put switches an output, if it is not as it should be.
func (r *Rig) put(name string, on bool) {
	at := slices.Index(r.lit, name)
	if on == (at >= 0) {
		return
	}
	r.record.switches = append(r.record.switches, Switch{r.now.seconds(), name, on})
	if on {
		r.lit = append(r.lit, name)
		return
	}
	r.lit = slices.Delete(r.lit, at, at+1)
}

// Lit lists the outputs that are on.
func (r *Rig) Lit() []string { return slices.Clone(r.lit) }

// allOff is what a board does by itself when it stops, starts anew or ends a program.
func (r *Rig) allOff() {
	for _, name := range r.Lit() {
		r.put(name, false)
	}
}

// lacks tells whether a line is for an output that the board does not have.
func (r *Rig) lacks(text string) bool {
	return slices.ContainsFunc(r.outputsBy(strings.TrimSpace(text)), func(o Output) bool { return o.Lacks })
}

// outputs obeys a frame that switches a step player's outputs, for a while or until it is
// told otherwise.
func (p *player) outputs(payload []byte) int {
	timed := len(payload) == 5
	if len(payload) != 1 && !timed || p.rig.o.Numbered == 0 || int(payload[0])>>p.rig.o.Numbered != 0 {
		return reasonPayload
	}
	p.dark = never
	if timed {
		ms := binary.LittleEndian.Uint32(payload[1:])
		if ms == 0 {
			return reasonPayload
		}
		p.dark = p.rig.now + p.rig.o.drift(instant(ms)*1_000_000*nanosecond)
	}
	for _, o := range p.rig.o.Outputs {
		if o.Number > 0 {
			p.rig.put(o.Name, payload[0]>>(o.Number-1)&1 == 1)
		}
	}
	return 0
}
