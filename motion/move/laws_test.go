package move_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// fitting are values of the keys that laws take, as a file has them.
var fitting = map[string]string{
	law.RampKey: "1/4", law.JerkShareKey: "1/4", law.MinKey: "snap", law.SwingsKey: "6.4", law.DampingKey: "2 %",
}

// Every law that can be asked for answers everything: it goes from rest 0 to 1 and never
// back, its peaks are those of its curve, and a shot takes it with all its keys and with
// none that it does not take.
func TestEveryLawAnswersEverything(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range optimal.Kinds() {
		t.Run(k.Name(), func(t *testing.T) {
			assert.False(t, seen[k.Name()], "two are called that")
			seen[k.Name()] = true
			lines := "from = \"40 mm\"\nto = \"100 mm\"\nlaw = \"" + k.Name() + "\"\n"
			var own []string
			for _, takes := range k.Takes() {
				require.Contains(t, fitting, takes.Key)
				own = append(own, takes.Key)
				lines += takes.Key + " = \"" + fitting[takes.Key] + "\"\n"
			}
			s, err := shot.Decode("s", []byte(head+lines), nil)
			require.NoError(t, err)
			l := s.Axes[0].Law()
			assert.Equal(t, k.Name(), l.Name())
			for key, text := range fitting {
				if !slices.Contains(own, key) {
					_, err := shot.Decode("s", []byte(head+lines+key+" = \""+text+"\"\n"), nil)
					assert.ErrorContains(t, err, key+` "`+text+`" has no meaning for this law; it is for law = "`)
				}
			}
			assert.Equal(t, len(own) > 0, s.Axes[0].Does.(move.Relawed).Tuned())

			const looked = 5000
			p, before, most := l.Peaks(), 0.0, law.Point{}
			for i := range looked + 1 {
				q := l.At(float64(i) / looked)
				assert.GreaterOrEqual(t, q.S, before-1e-12)
				before = q.S
				most.V, most.A = math.Max(most.V, math.Abs(q.V)), math.Max(most.A, math.Abs(q.A))
			}
			assert.Zero(t, l.At(0).S)
			assert.InDelta(t, 1, l.At(1).S, 1e-12)
			assert.InEpsilon(t, p.V, most.V, 1e-3)
			assert.InDelta(t, p.A, most.A, 1e-2*math.Max(p.A, 1))
			if b, ok := l.(law.Breaker); ok {
				assert.True(t, slices.IsSorted(b.Breaks()))
			}
		})
	}
	for _, name := range append(law.Names(), optimal.Made()...) {
		assert.True(t, seen[name], name)
	}
}

// A law that is none of them is a fault that lists them all.
func TestNoSuchLaw(t *testing.T) {
	_, err := shot.Decode("s", []byte(head+"from = \"40 mm\"\nto = \"100 mm\"\nlaw = \"bounce\"\n"), nil)
	for _, k := range optimal.Kinds() {
		assert.ErrorContains(t, err, k.Name())
	}
}
