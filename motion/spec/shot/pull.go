package shot

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// RawPull is the [camera.pull] table.
type RawPull struct {
	Place   source.Place   `toml:"-"`
	Without source.Without `toml:"without" jsonschema_description:"What set-ups say of it is taken out: all of it (true), or some of its keys (a list)."`
	Hand    source.Text    `toml:"hand" jsonschema:"example=right" jsonschema_description:"Whose hand; with two, each has a side of the click track."`
	Follow  source.Text    `toml:"follow" instead:"keys,between" jsonschema:"enum=product" jsonschema_description:"What stays in focus all the time: the product's near face; in place of keys."`
	Keys    []RawMark      `toml:"keys" instead:"follow" jsonschema:"minItems=2" jsonschema_description:"What is in focus at times of the loop."`
	Between source.Text    `toml:"between" jsonschema:"example=3-4-5" jsonschema_description:"The motion law from one of the keys to the next, from rest to rest; left out, along the smoothest curve that never passes a key."`
	Beats   source.Text    `toml:"beats" jsonschema:"example=3" jsonschema_description:"How many beats are counted to the hand before each pull."`
}

// RawMark is one of the keys of a pull.
type RawMark struct {
	Place source.Place `toml:"-"`
	At    source.Text  `toml:"at" jsonschema:"required,example=0 frames,example=1.5 s,example=beat 9" jsonschema_description:"When, on screen, from the first frame, or by the music."`
	Focus source.Text  `toml:"focus" jsonschema:"required,example=400 mm" jsonschema_description:"From the lens to the plane in focus."`
	Hold  source.Text  `toml:"hold" jsonschema:"example=6 frames" jsonschema_description:"How long it stays there."`
}

// RawTick is a mark of the scale of a lens.
type RawTick struct {
	Place  source.Place `toml:"-"`
	Marked source.Text  `toml:"marked" jsonschema:"required,example=450 mm" jsonschema_description:"The distance that is engraved, from the sensor."`
	At     source.Text  `toml:"at" jsonschema:"required,example=30 deg,example=55 mm" jsonschema_description:"Where it is round the ring, from any place: degrees, or mm along a tape."`
}

// pull reads how the focus is pulled.
func (l *sceneReader) pull(raw RawCamera) {
	if raw.Pull == nil {
		return
	}
	p := *raw.Pull
	r := &move.Reader{Report: l.Report, At: p.Place, Path: l.path + "pull.", Time: l.time.Timing, Focus: true}
	l.places[l.path+"pull"] = p.Place
	before := r.Wrongs()
	for _, t := range []struct {
		source.Text
		key string
	}{{raw.Focus, "focus"}, {raw.Magnification, "magnification"}} {
		if t.Set {
			r.Wrong(t.Text, l.path+t.key, "says where the lens is focused, and so does its pull", "keep one of the two")
		}
	}
	out := &pull.Pull{Hand: p.Hand.Text, Beats: defaultBeats, Loop: l.time.Loop.Real(), Paced: l.paced}
	if !p.Hand.Set {
		out.Hand = "hand"
		r.Default(r.Path+"hand", out.Hand, "one hand does it all")
	}
	if p.Beats.Set {
		out.Beats, _ = r.Whole(p.Beats, r.Path+"beats", 0, maxBeats)
	} else {
		r.Default(r.Path+"beats", fmt.Sprint(defaultBeats), "counted: three, two, one, now")
	}
	switch {
	case p.Follow.Set && p.Keys != nil:
		r.Add(p.Keys[0].Place, r.Path+"keys", "", "say what is in focus, and so does follow", "keep one of the two")
	case p.Follow.Set:
		_, out.Product = r.Choice(p.Follow, r.Path+"follow", "product")
		if p.Between.Set {
			r.Wrong(p.Between, r.Path+"between", "goes from key to key, and what follows has none", "leave it out")
		}
	case p.Keys == nil:
		r.Add(p.Place, r.Path+"keys", "", "is missing", `say what is in focus, such as keys = [{ at = "0 frames", focus = "400 mm" }, { at = "72 frames", focus = "350 mm" }], or follow = "product"`)
	default:
		l.pulled(r, p, out)
	}
	if r.Wrongs() > before || !l.time.Known {
		return
	}
	if !out.Product {
		if stays(out.Marks) {
			last := p.Keys[len(p.Keys)-1].Focus
			r.Wrong(last, fmt.Sprintf("%skeys[%d].focus", r.Path, len(p.Keys)), "is where every key is, and the hand has nothing to do",
				fmt.Sprintf("to stay there, say focus = %s in place of the pull", last.Quoted()))
			return
		}
		if _, err := out.Over(out.Loop); err != nil { // what the checks above do not know of
			r.Add(p.Place, r.Path+"keys", "", err.Error(), "")
			return
		}
	}
	l.scene.Lens.Pull = out
}

// pulled reads the keys of a pull, and the way between them.
func (l *sceneReader) pulled(r *move.Reader, p RawPull, to *pull.Pull) {
	raws := list.Map(p.Keys, func(k RawMark) move.RawKey {
		return move.RawKey{Place: k.Place, At: k.At, Pos: k.Focus, Hold: k.Hold}
	})
	for i, k := range (move.KeysKeys{Keys: raws}).List(r) {
		l.places[fmt.Sprintf("%skeys[%d].focus", r.Path, i+1)] = p.Keys[i].Focus.Place()
		if t := p.Keys[i].Focus; t.Set && k.Pos.Value.Sign() <= 0 && k.Pos.Dim == unit.Length {
			r.Wrong(t, fmt.Sprintf("%skeys[%d].focus", r.Path, i+1), "must be above 0", `such as "400 mm"`)
		}
		to.Marks = append(to.Marks, track.Key{Time: k.At, Pos: k.Pos.Float(), Hold: k.Hold})
	}
	if !p.Between.Set {
		r.Default(r.Path+"between", "smooth", "the smoothest curve that never passes a key")
		return
	}
	law, err := law.Named(p.Between.Text)
	if err != nil {
		r.Fail(p.Between, r.Path+"between", errors.New(strings.TrimPrefix(err.Error(), "law ")))
		return
	}
	to.Between = law
}

// stays tells whether keys all are at one place.
func stays(keys []track.Key) bool {
	return !slices.ContainsFunc(keys, func(k track.Key) bool { return k.Pos != keys[0].Pos })
}

// ring reads the scale of the lens. Distances are engraved from the sensor, so that what
// they focus on follows from the focal length.
func (l *sceneReader) ring(raw RawCamera) {
	n := &l.scene.Lens
	around := l.number(raw.RingAround, "ring-around", unit.Length)
	n.Ring.Around = around.Value
	if around.Given && around.Value <= 0 {
		l.Wrong(raw.RingAround, l.path+"ring-around", "must be above 0", `such as "220 mm"`)
	}
	if raw.Scale == nil {
		if around.Given {
			l.Wrong(raw.RingAround, l.path+"ring-around", "turns the degrees of a scale into mm, and the lens has none", "add its scale")
		}
		return
	}
	l.places[l.path+"scale"] = raw.Scale[0].Place
	if !n.FocalLength.Given {
		l.Add(raw.Scale[0].Place, l.path+"scale", "", "takes the focal length of the lens", `such as focal-length = "100 mm"`)
		return
	}
	before := l.Wrongs()
	for i, t := range raw.Scale {
		l.tick(t, fmt.Sprintf("%sscale[%d].", l.path, i+1), n)
	}
	if len(raw.Scale) < 2 {
		l.Add(raw.Scale[0].Place, l.path+"scale", "(1 of them)", "must be at least 2", "a tape needs two marks")
	}
	if l.Wrongs() > before {
		n.Ring.Ticks = nil
	}
}

// tick reads a mark of a scale, which goes on from those before it: round the ring one
// way, and farther or nearer.
func (l *sceneReader) tick(t RawTick, path string, to *scene.Lens) {
	if !t.Marked.Set || !t.At.Set {
		l.Add(t.Place, path+"marked", "", "wants a distance and a place", `such as { marked = "450 mm", at = "30 deg" }`)
		return
	}
	d, ok := l.Quantity(t.Marked, path+"marked", unit.Length)
	at, ok2 := l.Quantity(t.At, path+"at", unit.Angle, unit.Length)
	if !ok || !ok2 {
		return
	}
	f := to.FocalLength.Value
	u := pull.FocusOf(f, d.Float())
	r := &to.Ring
	n := len(r.Ticks)
	switch degrees := at.Dim == unit.Angle; {
	case !(u > f):
		l.Wrong(t.Marked, path+"marked", "must be beyond four focal lengths, "+unit.Format(4*f, unit.Length), "a distance is engraved from the sensor")
		return
	case n > 0 && degrees != r.Degrees:
		l.Wrong(t.At, path+"at", "must be of the kind of those before it", "degrees or mm, all of them")
		return
	case n > 0 && at.Float() <= r.Ticks[n-1].At:
		l.Wrong(t.At, path+"at", "must come after the mark before it", "list marks in the order of their places round the ring")
		return
	case n > 0 && u == r.Ticks[n-1].Focus || n > 1 && (u > r.Ticks[n-1].Focus) != (r.Ticks[n-1].Focus > r.Ticks[n-2].Focus):
		l.Wrong(t.Marked, path+"marked", "must go on the way of those before it", "distances grow all along a ring, or lessen")
		return
	default:
		r.Degrees = degrees
	}
	r.Ticks = append(r.Ticks, pull.Tick{Focus: u, At: at.Float()})
}

// Turn is one way of the hand on the focus ring, in real s from frame 0 and mm of focus.
type Turn struct {
	Sets, Arrives exact.Rat
	To            float64
}

// WithTurns is the shot with the cues of the hand that pulls its focus, given what that
// does in a round of so many real s: each turn is counted to, and a tone says where it
// should have arrived. A count is no longer than since the turn before.
func (s Shot) WithTurns(turns []Turn, round exact.Rat) Shot {
	p := s.Scene.Lens.Pull
	at := s.places["camera.pull"]
	s.Cues = slices.Clone(s.Cues)
	cue := func(name string, when exact.Rat) Cue {
		return Cue{Name: name, Hand: p.Hand, Line: at.Line, Column: at.Column, At: when, Beat: usualBeat, Leaves: Nothing, Ring: true, path: "camera.pull."}
	}
	for i, t := range turns {
		since := t.Sets.Sub(turns[(i+len(turns)-1)%len(turns)].Sets)
		if i == 0 {
			since = since.Add(round)
		}
		focus := unit.Format(math.Round(t.To), unit.Length)
		c := cue("focus to "+focus, t.Sets)
		c.Busy = wrapped(t.Arrives.Sub(t.Sets), round)
		if c.Beats = min(p.Beats, since.Quo(usualBeat).Ceil().Whole()-1); c.Beats == 0 {
			c.Reaction = usualReaction
		}
		s.Cues = append(s.Cues, c)
		if next := turns[(i+1)%len(turns)].Sets; !wrapped(next.Sub(t.Arrives), round).Less(apart) {
			s.Cues = append(s.Cues, cue("focus at "+focus, wrapped(t.Arrives, round)))
		}
	}
	return s
}

// apart, s, is how near two tones are that say one thing: where a hand turns round, that it
// has arrived is told by that it sets out.
var apart = exact.New(1, 4)

// wrapped brings a time into the round.
func wrapped(t, round exact.Rat) exact.Rat { return t.Quo(round).Frac().Mul(round) }
