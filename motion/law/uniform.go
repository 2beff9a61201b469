package law

// uniform is constant speed: s = u.
type uniform struct{}

// Uniform returns the law.
func Uniform() Law { return uniform{} }

func (uniform) Name() string { return "uniform" }

func (uniform) At(u float64) Point { return Point{S: min(max(u, 0), 1), V: 1} }

// EvenSpeed says that it is even.
func (uniform) EvenSpeed() {}

func (uniform) Peaks() Peaks { return Peaks{V: 1} }
