package move

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
)

// lawReader reads the laws of a move from the keys that it has for them.
type lawReader struct {
	*Reader
	law, backLaw           source.Text
	ramp, jerkShare        source.Text
	least, swings, damping source.Text
	outShare               source.Text
	usual                  law.Law // where the file names none
	why                    string
}

// tuned tells whether the file says more of a law than its name.
func (r lawReader) tuned() bool {
	return r.ramp.Set || r.jerkShare.Set || r.least.Set || r.swings.Set || r.damping.Set
}

// one reads the law of a move that has only one.
func (r lawReader) one() law.Law {
	name := r.name()
	return r.make(r.law, "law", name, r.spec(name), 1)
}

// both reads the law of the way out and that of the way back.
func (r lawReader) both() (out, back law.Law) {
	name := r.name()
	backName := r.backLaw.Text
	if !r.backLaw.Set {
		backName = name
		r.Default(r.Path+"back-law", backName, "the same as the way out")
	}
	spec := r.spec(name, backName)
	out = r.make(r.law, "law", name, spec, 1)
	if takes(name, law.MinKey) && out == nil { // what is wrong with it has been told
		return nil, nil
	}
	if !r.backLaw.Set && !(takes(name, law.SwingsKey) && r.backShare() != 1) {
		return out, out
	}
	t := r.backLaw
	if !t.Set {
		t = r.law
	}
	return out, r.make(t, "back-law", backName, spec, r.backShare())
}

func (r lawReader) name() string {
	if !r.law.Set {
		r.Default(r.Path+"law", r.usual.Name(), r.why)
		return r.usual.Name()
	}
	return r.law.Text
}

// backShare is how long the way back takes, in ways out.
func (r lawReader) backShare() float64 {
	q, err := unit.ParseAs(r.outShare.Text, unit.Number)
	if err != nil || !inside(q.Value) {
		return 1
	}
	return exact.Int(1).Sub(q.Value).Quo(q.Value).Float()
}

// kindOf is the law called name, nil where there is none.
func kindOf(name string) law.Kind {
	all := optimal.Kinds()
	if i := slices.IndexFunc(all, func(k law.Kind) bool { return k.Name() == name }); i >= 0 {
		return all[i]
	}
	return nil
}

// takes tells whether the law called name takes a key.
func takes(name, key string) bool {
	_, does := taken(key, name)
	return does
}

// taken tells whether any of the laws takes a key, and the most that it may be for
// one of them.
func taken(key string, names ...string) (most float64, does bool) {
	for _, name := range names {
		if k := kindOf(name); k != nil {
			for _, t := range k.Takes() {
				if t.Key == key {
					most, does = max(most, t.Most), true
				}
			}
		}
	}
	return most, does
}

// takers says which laws a key is for.
func takers(key string) string {
	var names []string
	for _, k := range optimal.Kinds() {
		if takes(k.Name(), key) {
			names = append(names, fmt.Sprintf("%q", k.Name()))
		}
	}
	last := len(names) - 1
	if last > 0 {
		names = []string{strings.Join(names[:last], ", ") + " or " + names[last]}
	}
	return "it is for law = " + strings.Join(names, "")
}

var third = exact.New(1, 3)

// spec reads the shares of the laws that have any, and reports keys that mean nothing
// for any of them.
func (r lawReader) spec(names ...string) law.Spec {
	ramp, jerkShare := third, third
	for _, k := range []struct {
		key, why string
		text     source.Text
		to       *exact.Rat
	}{
		{law.RampKey, "a third up, a third steady, a third down", r.ramp, &ramp},
		{law.JerkShareKey, "a third of the ramp each to build up, hold and die down", r.jerkShare, &jerkShare},
	} {
		if top, does := taken(k.key, names...); does {
			most := exact.FromFloat(top)
			fits := func(s exact.Rat) bool { return s.Sign() > 0 && !most.Less(s) }
			*k.to = r.share(k.text, k.key, third, k.why, fits, "above 0 and at most "+most.String())
		}
	}
	for _, k := range []struct {
		key  string
		text source.Text
	}{{law.RampKey, r.ramp}, {law.JerkShareKey, r.jerkShare}, {law.MinKey, r.least}, {law.SwingsKey, r.swings}, {law.DampingKey, r.damping}} {
		if _, does := taken(k.key, names...); k.text.Set && !does {
			r.Wrong(k.text, r.Path+k.key, "has no meaning for this law", takers(k.key))
		}
	}
	return law.Spec{Ramp: ramp.Float(), JerkShare: jerkShare.Float()}
}

// make makes the law called name under one of the keys law and back-law; share is how
// long its way takes, in ways out.
func (r lawReader) make(t source.Text, key, name string, spec law.Spec, share float64) law.Law {
	k := kindOf(name)
	if k == nil {
		_, err := law.Named(name)
		made := optimal.Made()
		last := len(made) - 1
		err = fmt.Errorf("%w; %s and %s are laws too", err, strings.Join(made[:last], ", "), made[last])
		r.Fail(t, r.Path+key, plainly(err))
		return nil
	}
	soft := takes(name, law.MinKey)
	if soft && !r.soft(&spec, key, name) {
		return nil
	}
	spec.Swings *= share
	l, err := k.Make(spec)
	if err == nil {
		return l
	}
	err = plainly(err)
	if soft {
		if share != 1 {
			err = fmt.Errorf("%w (that is the way back)", err)
		}
		err = fmt.Errorf("cannot be: %w", err)
	}
	r.Fail(t, r.Path+key, err)
	return nil
}

// plainly leaves out what the key says already.
func plainly(err error) error { return errors.New(strings.TrimPrefix(err.Error(), "law ")) }
