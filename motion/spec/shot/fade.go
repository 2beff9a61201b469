package shot

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// RawFade is the fade of a lamp: a level there and back, as an axis goes.
type RawFade struct {
	Place     source.Place `toml:"-"`
	From      source.Text  `toml:"from" jsonschema:"required,example=0 %" jsonschema_description:"The level it sets out from, of its full light."`
	To        source.Text  `toml:"to" jsonschema:"required,example=85 %" jsonschema_description:"The level it goes to."`
	Law       source.Text  `toml:"law" jsonschema:"example=3-4-5,example=cycloidal" jsonschema_description:"The motion law; left out, 3-4-5."`
	BackLaw   source.Text  `toml:"back-law" jsonschema:"example=modified-sine" jsonschema_description:"The law of the way back, if it is another."`
	Ramp      source.Text  `toml:"ramp" jsonschema:"example=1/3" jsonschema_description:"trapezoidal and seven-segment laws: share of the fade spent picking up speed, and again losing it."`
	JerkShare source.Text  `toml:"jerk-share" jsonschema:"example=1/4" jsonschema_description:"seven-segment law: share of the ramp in which its pace builds up, and again dies down."`
	Cycles    source.Text  `toml:"cycles" jsonschema:"example=1" jsonschema_description:"Times there and back in a loop."`
	OutShare  source.Text  `toml:"out-share" jsonschema:"example=1/2" jsonschema_description:"Share of the changing time spent on the way out."`
	DwellFar  source.Text  `toml:"dwell-far" jsonschema:"example=12 frames" jsonschema_description:"How long it stays where it goes to, on screen."`
	DwellNear source.Text  `toml:"dwell-near" jsonschema:"example=0.5 s" jsonschema_description:"How long it stays where it sets out, on screen."`
	Phase     source.Text  `toml:"phase" jsonschema:"example=0,example=1/4" jsonschema_description:"Share of the loop that is past at the first frame."`
}

// RawLampKey is one key of a lamp's keys.
type RawLampKey struct {
	Place source.Place `toml:"-"`
	At    source.Text  `toml:"at" jsonschema:"required,example=0 frames,example=1.5 s" jsonschema_description:"When, on screen, from the first frame."`
	Level source.Text  `toml:"level" jsonschema:"required,example=85 %" jsonschema_description:"Its level then, of its full light."`
	Hold  source.Text  `toml:"hold" jsonschema:"example=6 frames" jsonschema_description:"How long it stays so."`
}

// dimmed reads how a lamp changes over the loop, and what dims it.
func (l *sceneReader) dimmed(raw RawLamp, to *scene.Lamp) {
	r := &move.Reader{Report: l.Report, At: raw.Place, Path: l.path, Time: l.time.Timing, Level: true}
	d := dimmer{r, raw}
	d.apart()
	switch { // where what the loop makes of it is told
	case raw.Fade != nil:
		l.places[l.path+"level"] = raw.Fade.Place
	case len(raw.Keys) > 0:
		l.places[l.path+"level"] = raw.Keys[0].Place
	}
	to.Fade = d.fade(l.paced)
	if t := raw.Curve; t.Set {
		w, _ := r.Choice(t, l.path+"curve", fade.Curves()...)
		to.Curve = fade.Curve(max(0, slices.Index(fade.Curves(), w)))
	} else if to.Fade != nil {
		r.Default(l.path+"curve", to.Curve.String(), "the dial of its dimmer is taken to be linear in light, which not every one is")
	}
	if t := raw.Source; t.Set {
		w, _ := r.Choice(t, l.path+"source", "steady", "filament")
		to.Filament = w == "filament"
	} else if to.Fade != nil {
		r.Default(l.path+"source", "steady", "it keeps its colour as it dims; a filament does not")
	}
	if d.hand(to); raw.By.Set {
		l.mark("by", raw.By)
	}
}

// dimmer reads what of a lamp changes.
type dimmer struct {
	*move.Reader
	raw RawLamp
}

// apart wants one saying of the level.
func (d dimmer) apart() {
	second := func(at source.Place, key, first string) {
		d.Add(at, d.Path+key, "", "says how bright the lamp is, and so does its "+first, "keep one of the two")
	}
	switch {
	case d.raw.Fade != nil && d.raw.Keys != nil:
		second(d.raw.Keys[0].Place, "keys", "fade")
	case d.raw.Fade != nil && d.raw.Level.Set:
		second(d.raw.Fade.Place, "fade", "level")
	case d.raw.Keys != nil && d.raw.Level.Set:
		second(d.raw.Keys[0].Place, "keys", "level")
	}
	if d.raw.Keys == nil {
		d.without(d.raw.Between, "between", "goes from key to key, and the lamp has none", "a fade has a law")
		d.without(d.raw.Seam, "seam", "is of keys, and the lamp has none", "a fade comes back by itself")
	}
}

// without reports a key that means nothing without another.
func (d dimmer) without(t source.Text, key, bound, fit string) {
	if t.Set {
		d.Wrong(t, d.Path+key, bound, fit)
	}
}

// fade reads how the level goes; nil where it stays, or where a fault says why not.
func (d dimmer) fade(paced bool) *fade.Fade {
	out := &fade.Fade{Loop: d.Time.Loop.Real(), Paced: paced}
	before := d.Wrongs()
	switch {
	case d.raw.Fade != nil:
		out.There = d.there(*d.raw.Fade)
	case d.raw.Keys != nil:
		d.keys(out)
	default:
		return nil
	}
	if d.Wrongs() > before || !d.Time.Known {
		return nil
	}
	if t := d.raw.Keys; t != nil && stays(out.Keys) {
		last := t[len(t)-1].Level
		d.Wrong(last, fmt.Sprintf("%skeys[%d].level", d.Path, len(t)), "is where every key is, and the light does not change",
			fmt.Sprintf("to stay there, say level = %s in place of the keys", last.Quoted()))
		return nil
	}
	if _, err := out.Over(out.Loop); err != nil { // what the checks above do not know of
		d.Add(d.At, d.Path+"level", "", err.Error(), "")
		return nil
	}
	return out
}

func (d dimmer) there(raw RawFade) fade.Shuttle {
	r := *d.Reader
	r.At, r.Path = raw.Place, d.Path+"fade."
	for _, t := range []struct {
		key  string
		text *source.Text
	}{{"law", &raw.Law}, {"back-law", &raw.BackLaw}} {
		if d.swings(r.Path+t.key, *t.text) {
			*t.text = source.Text{} // so that the rest is looked at all the same
		}
	}
	d.inRange(raw.From, r.Path+"from")
	d.inRange(raw.To, r.Path+"to")
	keys := move.ThereAndBackKeys{
		From: raw.From, To: raw.To, Law: raw.Law, BackLaw: raw.BackLaw, Ramp: raw.Ramp, JerkShare: raw.JerkShare, Cycles: raw.Cycles,
		OutShare: raw.OutShare, DwellFar: raw.DwellFar, DwellNear: raw.DwellNear, Phase: raw.Phase,
	}
	return keys.Read(&r).(fade.Shuttle)
}

// swings refuses a law that is made for what swings.
func (d dimmer) swings(path string, t source.Text) bool {
	takes := func(k law.Kind) bool {
		return k.Name() == t.Text && slices.ContainsFunc(k.Takes(), func(p law.Takes) bool { return p.Key == law.SwingsKey })
	}
	if !t.Set || !slices.ContainsFunc(optimal.Kinds(), takes) {
		return false
	}
	d.Wrong(t, path, "is for what swings, and a lamp does not", `"3-4-5" would do`)
	return true
}

func (d dimmer) keys(to *fade.Fade) {
	raws := list.Map(d.raw.Keys, func(k RawLampKey) move.RawKey {
		return move.RawKey{Place: k.Place, At: k.At, Pos: k.Level, Hold: k.Hold}
	})
	for i, k := range d.raw.Keys {
		d.inRange(k.Level, fmt.Sprintf("%skeys[%d].level", d.Path, i+1))
	}
	for _, k := range (move.KeysKeys{Keys: raws}).List(d.Reader) {
		to.Keys = append(to.Keys, track.Key{Time: k.At, Pos: k.Pos.Float(), Hold: k.Hold})
	}
	if t := d.raw.Seam; t.Set {
		w, _ := d.Choice(t, d.Path+"seam", "closed", "cut")
		to.Cut = w == "cut"
	}
	switch t := d.raw.Between; {
	case t.Set:
		l, err := law.Named(t.Text)
		if err != nil {
			d.Fail(t, d.Path+"between", fmt.Errorf("%s", strings.TrimPrefix(err.Error(), "law ")))
			return
		}
		to.Between = l
	case to.Cut:
		to.Between = law.MinimumJerk()
		d.Default(d.Path+"between", to.Between.Name(), "from rest to rest, as it jumps at the seam")
	default:
		d.Default(d.Path+"between", "smooth", "the smoothest curve that never passes a key")
	}
}

// inRange wants a level that a lamp has.
func (d dimmer) inRange(t source.Text, path string) {
	q, err := unit.ParseAs(t.Text, unit.Number)
	if t.Set && err == nil && (q.Value.Sign() < 0 || exact.Int(1).Less(q.Value)) {
		d.Wrong(t, path, "must be from 0 % to 100 %", "")
	}
}

// hand reads who dims it.
func (d dimmer) hand(to *scene.Lamp) {
	who := ""
	if t := d.raw.By; t.Set {
		who, _ = d.Choice(t, d.Path+"by", "table", "hand")
	}
	if who != "hand" {
		d.without(d.raw.Hand, "hand", "does nothing here", `by = "hand" would have it dim the lamp`)
		d.without(d.raw.Beats, "beats", "are counted to nobody here", `by = "hand" would have a hand dim the lamp`)
		return
	}
	if d.raw.Fade == nil && d.raw.Keys == nil {
		d.Wrong(d.raw.By, d.Path+"by", "has a hand dim what stays as it is", `a fade would change it, such as fade = { from = "0 %", to = "85 %" }`)
	}
	to.Hand, to.Beats = d.raw.Hand.Text, defaultBeats
	if !d.raw.Hand.Set {
		to.Hand = "hand"
		d.Default(d.Path+"hand", to.Hand, "one hand does it all")
	}
	if d.raw.Beats.Set {
		to.Beats, _ = d.Whole(d.raw.Beats, d.Path+"beats", 0, maxBeats)
	} else {
		d.Default(d.Path+"beats", fmt.Sprint(defaultBeats), "counted: three, two, one, now")
	}
}
