package motor

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestRelease(t *testing.T) {
	shaft := Gravity * 0.04 / (2 * math.Pi) // of 2 kg on 30 degrees
	tilted := belt(Load{Mass: 2, Pull: Incline(2, 30)})
	for name, c := range map[string]struct {
		change func(*Drive)
		keeper Keeper
		spare  float64
	}{
		"level":      {func(d *Drive) { d.Load.Pull = 0 }, Level, math.Inf(1)},
		"nothing":    {func(*Drive) {}, Nothing, 0},
		"friction":   {func(d *Drive) { d.Load.Friction = 2 * Gravity }, Friction, 2},
		"detent":     {func(d *Drive) { d.Motor.Detent = 3 * shaft }, Detent, 3},
		"too little": {func(d *Drive) { d.Motor.Detent = shaft / 2 }, Nothing, 0.5},
		"brake":      {func(d *Drive) { d.Motor.Brake = 4 * shaft }, Brake, 4},
		"screw":      {func(d *Drive) { d.Train = Efficient(0.4) }, SelfHeld, math.Inf(1)},
	} {
		d := tilted
		c.change(&d)
		r := d.Release()
		assert.Equal(t, c.keeper, r.Keeper, name)
		assert.InDelta(t, c.spare, r.Spare, 1e-12, name)
		assert.Equal(t, c.keeper == Nothing, r.Acc > 0, name)
	}
}

// Without rotor and loss a load falls with g sin i, and v^2 = 2 a s.
func TestFreeFall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(1, 90).Draw(t, "angle")
		mass := rapid.Float64Range(0.1, 10).Draw(t, "mass")
		r := belt(Load{Mass: mass, Pull: Incline(mass, angle)}).Release()
		require.Equal(t, Nothing, r.Keeper)
		require.InEpsilon(t, 1000*Gravity*math.Sin(angle*math.Pi/180), r.Acc, 1e-12)
		require.InEpsilon(t, r.Acc*200, r.Reaches(100)*r.Reaches(100), 1e-12)
		require.Equal(t, -1.0, r.Down)
	})
}

// A rotor that falls with the load takes its share: a = m g / (m + J/r^2), the
// textbook's mass on a drum.
func TestMassOnADrum(t *testing.T) {
	r := 0.04 / (2 * math.Pi)
	d := belt(Load{Mass: 2, Pull: Incline(2, 90)})
	d.Motor.Inertia = 20
	assert.InEpsilon(t, 1000*2*Gravity/(2+20e-6/(r*r)), d.Release().Acc, closed)
	d.Load.Pull = -d.Load.Pull
	assert.Equal(t, 1.0, d.Release().Down)
	assert.InEpsilon(t, 1000*2*Gravity/(2+20e-6/(r*r)), d.Release().Acc, closed)
}
