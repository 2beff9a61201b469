package law

// Kind is a law as a shot asks for it: by its name, and by what else it takes.
type Kind interface {
	// Name is the name that it is asked for by.
	Name() string
	// Takes are the keys beside the name that mean something for it.
	Takes() []Takes
	// Make returns the law. What Takes does not list is not looked at.
	Make(Spec) (Law, error)
}

// Takes is a key of the shot file that a law takes.
type Takes struct {
	Key  string  // one of those below
	Most float64 // of a share: above 0 and at most this
}

// The keys that laws take.
const (
	RampKey      = "ramp"
	JerkShareKey = "jerk-share"
	MinKey       = "least"
	SwingsKey    = "swings"
	DampingKey   = "swing-damping"
)

// Spec is what a shot says of a law besides its name, by those keys.
type Spec struct {
	Ramp      float64 // share of the move
	JerkShare float64 // share of the ramp
	Least     int     // order of the derivative that is to be as small as can be
	Swings    float64 // of the rig in the time of the move
	Damping   float64 // of these, as a share of critical
}

// Kinds returns every law of this package as a kind, plainest first.
func Kinds() []Kind {
	out := make([]Kind, len(all))
	for i, l := range all {
		k, ok := l.(Kind)
		if !ok {
			k = plain{l}
		}
		out[i] = k
	}
	return out
}

// plain is a law that takes nothing.
type plain struct{ Law }

func (plain) Takes() []Takes { return nil }

func (p plain) Make(Spec) (Law, error) { return p.Law, nil }

// Even is a law that goes at one speed from its beginning to its end, and so is not at
// rest there: through a seam it goes on and on.
type Even interface{ EvenSpeed() }

// IsEven tells whether a law is one.
func IsEven(l Law) bool {
	_, is := l.(Even)
	return is
}
