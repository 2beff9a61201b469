package rig

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/turntable/spin"
)

// Bounds of what buttons set. A way of a hundredth of a second is a blow, one of a day
// is another kind of film; nobody waits an hour for a rig to answer a button.
var (
	minWay, maxWay = exact.New(1, 100), exact.Int(86_400)
	maxLag         = exact.Int(3600)
)

// buttonsBuilder understands what a rig that is started by hand offers.
type buttonsBuilder struct {
	report *source.Report
	raw    RawController
	path   string // "controller."
}

// buttons reads the tables of a controller that is not driven, whose other keys belong
// to one that is.
func (b buttonsBuilder) build(k ControllerKind) Controller {
	strays(b.report, b.raw, b.path, k, "kind", "buttons", "ramp")
	c := Controller{Kind: k, Buttons: Buttons{Pace: exact.Int(1)}}
	raw, path := b.raw.Buttons, b.path+"buttons."
	if raw == nil {
		b.report.Add(b.raw.Place, b.path+"buttons", "", "is missing", "say what its buttons offer, such as [controller.buttons] with times = \"2 s to 60 s in steps of 1 s\"")
		raw = &RawButtons{}
	} else if !raw.Times.Set {
		b.report.Missing(raw.Place, path+"times", `"2 s to 60 s in steps of 1 s"`)
	}
	c.Buttons.Times = b.times(raw.Times, path+"times", minWay)
	c.Buttons.Pauses = b.times(raw.Pauses, path+"pauses", exact.Rat{})
	if !raw.Pauses.Set {
		b.report.Default(path+"pauses", "0 s", "it turns round at once")
		c.Buttons.Pauses = Offers{{}}
	}
	c.Buttons.Trips = b.trips(raw.RoundTrips, path+"round-trips")
	c.Buttons.Press = b.seconds(raw.Press, path+"press", spin.Reaction, maxReaction, "an assumption: how far off a press by hand is")
	c.Buttons.Lag = b.seconds(raw.Lag, path+"lag", exact.Rat{}, maxLag, "it begins as its button is pressed")
	c.Buttons.LagSpread = b.seconds(raw.LagSpread, path+"lag-spread", exact.Rat{}, maxReaction, "none is stated")
	b.measured(raw.Measured, path+"measured", &c.Buttons)
	c.Buttons.Ramp = b.ramp()
	return c
}

func (b buttonsBuilder) times(t source.Texts, path string, least exact.Rat) Offers {
	r := offerReader{report: b.report, dims: []unit.Dimension{unit.Time}, least: least}
	o := r.read(t, path)
	for _, x := range o {
		if maxWay.Less(x.To) {
			b.report.Add(t.Place(), path, unit.Format(x.To.Float(), unit.Time), "must be at most "+unit.Format(maxWay.Float(), unit.Time), "")
			return nil
		}
	}
	return o
}

// The words for round trips that are no number.
const endlessly = "endless"

func (b buttonsBuilder) trips(t source.Texts, path string) (out Trips) {
	if !t.Set {
		b.report.Default(path, none, "each way has a press of its own")
		return Trips{ByHand: true}
	}
	numbers := t
	numbers.Items = slices.DeleteFunc(slices.Clone(t.Items), func(x source.Text) bool { return x.Text == none || x.Text == endlessly })
	said := func(word string) bool {
		return slices.ContainsFunc(t.Items, func(x source.Text) bool { return x.Text == word })
	}
	out.ByHand, out.Endless = said(none), said(endlessly)
	if out.ByHand && len(t.Items) > 1 {
		b.report.Add(t.Place(), path, "", "must not have none beside others", "leave none out: a rig that goes back by itself need not be pressed for it")
	}
	if len(numbers.Items) > 0 || len(t.Items) == 0 {
		r := offerReader{report: b.report, dims: []unit.Dimension{unit.Number}, least: exact.Int(1), plain: true}
		out.Counts = r.read(numbers, path)
	}
	return out
}

// seconds reads a time from 0 to most.
func (b buttonsBuilder) seconds(t source.Text, path string, usual, most exact.Rat, why string) exact.Rat {
	if !t.Set {
		b.report.Default(path, unit.Format(usual.Float(), unit.Time), why)
		return usual
	}
	q, ok := b.report.Quantity(t, path, unit.Time)
	if ok && (q.Value.Sign() < 0 || most.Less(q.Value)) {
		b.report.Wrong(t, path, "must be from 0 s to "+unit.Format(most.Float(), unit.Time), "")
		return usual
	}
	return q.Value
}

func (b buttonsBuilder) ramp() (out Ramp) {
	raw, path := b.raw.Ramp, b.path+"ramp."
	if raw == nil {
		b.report.Add(b.raw.Place, strings.TrimSuffix(path, "."), "", "is missing",
			`say how it gathers speed, such as ramp = { law = "trapezoidal", time = "0.8 s" }; "seamrail ramp" finds it from a take`)
		return out
	}
	if !raw.Law.Set {
		b.report.Missing(raw.Place, path+"law", `"trapezoidal"`)
		return out
	}
	k, err := kindOfLaw(raw.Law.Text)
	if err != nil {
		b.report.Fail(raw.Law, path+"law", err)
		return out
	}
	out.Law = k.Name()
	takes := list.Map(k.Takes(), func(t law.Takes) string { return t.Key })
	b.rampTime(*raw, path, slices.Contains(takes, law.RampKey), &out)
	switch {
	case slices.Contains(takes, law.JerkShareKey):
		out.JerkShare = b.share(raw.Place, raw.JerkShare, path+"jerk-share", `"1/4"`)
	case raw.JerkShare.Set:
		b.report.Wrong(raw.JerkShare, path+"jerk-share", "means nothing for the "+out.Law+" law", "")
	}
	return out
}

func (b buttonsBuilder) rampTime(raw RawRamp, path string, takes bool, out *Ramp) {
	for _, t := range []struct {
		key  string
		text source.Text
	}{{"time", raw.Time}, {"share", raw.Share}} {
		if t.text.Set && !takes {
			b.report.Wrong(t.text, path+t.key, "means nothing for the "+out.Law+" law, which has no ramps of its own", "")
		}
	}
	switch {
	case !takes:
	case raw.Time.Set && raw.Share.Set:
		b.report.Wrong(raw.Share, path+"share", "says what time says already", "keep one of the two")
	case raw.Time.Set:
		if out.Time = b.seconds(raw.Time, path+"time", exact.Rat{}, maxWay, ""); out.Time.Sign() == 0 {
			b.report.Wrong(raw.Time, path+"time", "must be above 0 s", `such as "0.8 s"`)
		}
	case raw.Share.Set:
		out.Share = b.share(raw.Place, raw.Share, path+"share", `"1/5"`)
	default:
		b.report.Missing(raw.Place, path+"time", `"0.8 s"`)
	}
}

func (b buttonsBuilder) share(at source.Place, t source.Text, path, example string) exact.Rat {
	if !t.Set {
		b.report.Missing(at, path, example)
		return exact.Rat{}
	}
	q, ok := b.report.Quantity(t, path, unit.Number)
	if ok && (q.Value.Sign() <= 0 || exact.New(1, 2).Less(q.Value)) {
		b.report.Wrong(t, path, "must be above 0 and at most 1/2", "such as "+example)
	}
	return q.Value
}

// kindOfLaw is the named law, or an error that lists them.
func kindOfLaw(name string) (law.Kind, error) {
	if _, err := law.Named(name); err != nil {
		return nil, err
	}
	all := law.Kinds()
	return all[slices.IndexFunc(all, func(k law.Kind) bool { return k.Name() == name })], nil
}

// strays reports what a table of a rig that is not driven says and only one that is
// driven has a use for.
func strays(report *source.Report, raw any, path string, k ControllerKind, own ...string) {
	stray(report, raw, path, own, false, fmt.Sprintf("is of no use: a %s rig is set and started by hand, and nothing is sent to it", k))
}

// stray reports which keys of a table are set and are among some, or are not.
func stray(report *source.Report, raw any, path string, names []string, among bool, bound string) {
	v := reflect.ValueOf(raw)
	for i := range v.NumField() {
		key := v.Type().Field(i).Tag.Get("toml")
		if key == "-" || slices.Contains(names, key) != among {
			continue
		}
		if at, set := placeOf(v.Field(i)); set {
			report.Add(at, path+key, "", bound, "leave it out")
		}
	}
}

// placeOf returns where the value of a field was written, and false where it was not.
func placeOf(v reflect.Value) (source.Place, bool) {
	switch x := v.Interface().(type) {
	case source.Text:
		return x.Place(), x.Set
	case source.Texts:
		return x.Place(), x.Set
	case source.Switch:
		return x.Place(), x.Set
	}
	if v.Kind() == reflect.Pointer && !v.IsNil() {
		return v.Elem().FieldByName("Place").Interface().(source.Place), true
	}
	return source.Place{}, false
}
