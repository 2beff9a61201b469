package verify_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const randomHead = "shot = \"random\"\n[clock]\ncapture = \"24\"\nplayback = \"24\"\nloop = \"%d frames\"\n%s[rig]\nfile = \"bench.toml\"\n[axis.rail]\n"

// keyed is a rail through some keys at the quickest pace.
func keyed(r *rand.Rand) string {
	const frames = 200
	var keys []string
	for at := 3 + r.Intn(20); at < frames-8; at += 6 + r.Intn(40) {
		keys = append(keys, fmt.Sprintf(`{ at = "%d frames", pos = "%.2f mm" }`, at, 60+280*r.Float64()))
	}
	return fmt.Sprintf(randomHead+"move = \"keys\"\nkeys = [%s]\n", frames, "pace = \"quickest\"\n", strings.Join(keys, ", "))
}

// phased is a rail that goes there and back by the seven-segment law and passes the
// seam anywhere in it.
func phased(r *rand.Rand) string {
	parts := 2 + r.Intn(400)
	return fmt.Sprintf(randomHead+"from = \"%.3f mm\"\nto = \"%.3f mm\"\nlaw = \"seven-segment\"\nramp = \"%d %%\"\njerk-share = \"%d %%\"\nphase = \"%d/%d\"\n",
		24+r.Intn(400), "", 20+100*r.Float64(), 150+200*r.Float64(), 5+r.Intn(46), 5+r.Intn(46), 1+r.Intn(parts-1), parts)
}

// TestSoundLoopsAreNotRefused: both kinds are continuous in place and speed by how
// they are made, and their jerk jumps anywhere, so near to the seam as it comes.
func TestSoundLoopsAreNotRefused(t *testing.T) {
	for _, kind := range []struct {
		name  string
		count int
		make  func(*rand.Rand) string
	}{
		{"quickest, keyed", many.Times(22, 66), keyed},
		{"seven-segment, with a phase", many.Times(160, 490), phased},
	} {
		t.Run(kind.name, func(t *testing.T) {
			r := rand.New(rand.NewSource(1))
			made := 0
			for made < kind.count {
				text := kind.make(r)
				s, err := shot.Decode("random.toml", []byte(text), nil)
				require.NoError(t, err)
				p, err := plan.Build(s, sample.Bench(rig.InverseTime))
				if err != nil {
					continue // no loop so quick keeps the limits
				}
				made++
				for _, f := range verify.Check(trajectory.New(p)).Failed() {
					if f.Check == "seam" {
						assert.Fail(t, f.Text, text)
					}
				}
			}
		})
	}
}

// TestFastStepsAreNotRefused: at seven million steps a second, more than anything
// makes, rounding to a nanosecond is several thousandths of a step.
func TestFastStepsAreNotRefused(t *testing.T) {
	s, err := shot.Decode("fast.toml", []byte(fmt.Sprintf(randomHead+"from = \"20 mm\"\nto = \"240 mm\"\n", 60, "")), nil)
	require.NoError(t, err)
	r := sample.Bench(rig.InverseTime)
	r.Axes[0].StepsPerUnit, r.Controller.StepRate = exact.Int(20_000), 0
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	require.Empty(t, p.Breaches())
	v := verify.Check(trajectory.New(p))
	assert.True(t, v.OK, "%+v", v.Failed())
	assert.Greater(t, v.Steps[0].Rate, 5e6)
}
