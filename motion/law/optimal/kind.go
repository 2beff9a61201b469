package optimal

import "seamrail/motion/law"

// kinds are the laws that this package makes, as a shot asks for them.
var kinds = []law.Kind{
	carriedKind{},
	softKind{name: Name},
	softKind{name: QuietName, more: []law.Takes{{Key: law.SwingsKey}, {Key: law.DampingKey}}},
	softKind{name: WideName, more: []law.Takes{{Key: law.SwingsKey}}, robust: true},
}

// Kinds returns every law that a shot can ask for: those of the catalogue, plainest
// first, and those that this package makes.
func Kinds() []law.Kind { return append(law.Kinds(), kinds...) }

// Made returns the names of the laws of Kinds that are not in the catalogue.
func Made() []string {
	var out []string
	for _, k := range kinds {
		out = append(out, k.Name())
	}
	return out
}

type carriedKind struct{}

func (carriedKind) Name() string { return CarriedName }

func (carriedKind) Takes() []law.Takes {
	return []law.Takes{{Key: law.RampKey, Most: half}, {Key: law.JerkShareKey, Most: 1}}
}

func (carriedKind) Make(s law.Spec) (law.Law, error) {
	l, err := NewCarried(s.Ramp, s.JerkShare)
	if err != nil {
		return nil, err // and not a law that is nil
	}
	return l, nil
}

// softKind is a law whose greatest value of some order is as small as can be.
type softKind struct {
	name   string
	more   []law.Takes
	robust bool
}

func (k softKind) Name() string { return k.name }

func (k softKind) Takes() []law.Takes { return append([]law.Takes{{Key: law.MinKey}}, k.more...) }

func (k softKind) Make(s law.Spec) (law.Law, error) {
	q := Quiet{Robust: k.robust}
	for _, t := range k.more {
		switch t.Key {
		case law.SwingsKey:
			q.Swings = s.Swings
		case law.DampingKey:
			q.Damping = s.Damping
		}
	}
	l, err := Soften(s.Least, q)
	if err != nil {
		return nil, err
	}
	return l.Law, nil
}
