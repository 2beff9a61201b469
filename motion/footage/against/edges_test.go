package against

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
)

// What can be said is said, and no more.
func TestTakesThatTellLittle(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Plan, *taking)
		kind   Kind
		says   string
	}{
		"no poses: a turning product from above": {func(_ *Plan, k *taking) { k.lost = 2 }, NotKnown, "only 0 tell how the picture lies"},
		"nothing moves, and it should have": {func(_ *Plan, k *taking) {
			k.axis = func(int, float64, float64) float64 { return 0 }
		}, Differs, "rail should have moved it by 801 px"},
		"nothing moves, and nobody knows what should": {func(p *Plan, k *taking) {
			p.Axes[0].Gain = nil
			k.axis = func(int, float64, float64) float64 { return 0 }
		}, NotKnown, "nothing moves in the picture"},
		"only a rest":                {func(_ *Plan, k *taking) { k.zero, k.frames = -63, 12-4+4 }, NotKnown, "has a rest of"},
		"shorter than the loop":      {func(_ *Plan, k *taking) { k.zero, k.frames = -10, 90 }, NotKnown, "planned frames 10 to 99"},
		"grain":                      {func(_ *Plan, k *taking) { k.noise = 1 }, NotKnown, "less grain"},
		"poses that wander":          {func(_ *Plan, k *taking) { k.doubt = 1 }, NotKnown, "is known to"},
		"from the middle of a round": {func(_ *Plan, k *taking) { k.zero, k.frames = -80.5, 400 }, IsPlan, "this take is the plan"},
		"a travel nobody can prove":  {func(p *Plan, _ *taking) { p.Axes[0].Gain = nil }, IsPlan, "this take is the plan"},
		"half the travel across": {func(p *Plan, k *taking) {
			p.Axes[0].Gain, p.Axes[0].Across, p.PxPerMM, p.PxShare = nil, true, 16, 0.02
		}, Differs, "shows 50.1 % of what it should"},
	} {
		t.Run(name, func(t *testing.T) {
			p, k := fern()
			c.change(&p, &k)
			r := laidOut(t, p, k)
			assert.Equal(t, c.kind, r.Verdict.Kind, show(r))
			assert.Contains(t, r.Verdict.Text, c.says)
			if c.kind == NotKnown {
				assert.NotEmpty(t, r.Verdict.Why)
				assert.Contains(t, r.Verdict.Text, "NOT KNOWN WELL ENOUGH")
			}
		})
	}
}

// A pose that is no number is none, whatever it says of itself.
func TestPosesThatAreNoNumbers(t *testing.T) {
	p, k := fern()
	c := k.film(p)
	for i, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		c.Frames[40*i+50].FromFirst.X = v
		c.Frames[40*i+51].FromFirst.Scale = -1
		c.Frames[40*i+52].FromFirst.Doubt.X = v
	}
	r, err := Lay(c, p)
	require.NoError(t, err)
	assert.Equal(t, IsPlan, r.Verdict.Kind, show(r))
	assert.Equal(t, 6, r.Compared.Unknown)
}

func TestPlansThatAreNone(t *testing.T) {
	for says, change := range map[string]func(*Plan){
		"a capture rate of 0":     func(p *Plan) { p.CaptureRate = exact.Rat{} },
		"a loop of 0 captured":    func(p *Plan) { p.Loop = 0 },
		"0 rounds":                func(p *Plan) { p.Rounds = 0 },
		"run-up of -1":            func(p *Plan) { p.RunUp = -1 },
		"has no axis":             func(p *Plan) { p.Axes = nil },
		"axis rail has no motion": func(p *Plan) { p.Axes[0].At = nil },
		"neither may be below 0":  func(p *Plan) { p.PxPerMM = math.NaN() },
	} {
		p, k := fern()
		c := k.film(p)
		change(&p)
		_, err := Lay(c, p)
		assert.ErrorContains(t, err, says)
	}
	p, _ := fern()
	_, err := Lay(footage.Course{}, p)
	assert.ErrorContains(t, err, "no frames")
}
