package job

import (
	"slices"

	"seamrail/cmd/internal/starter"
)

// bareName is what faults call the shot below.
const bareName = "bare rail"

// bareShot is the shot that --from and --to are put into: the built-in clock
// and a rail that goes there and back.
const bareShot = `shot = "Rail, there and back"

[clock]
capture = "119.88"
playback = "23.976"
loop = "6 s"

[rig]
file = "` + starter.RigName + `"

[axis.rail]
move = "there-and-back"
`

// bare tells whether both ends of a move are given and no shot: they describe a whole
// move of the rail by themselves.
func (x Source) bare() bool {
	given := func(key string) bool {
		return slices.ContainsFunc(x.Over, func(v Value) bool { return v.Key == key && v.Of == Rail })
	}
	return x.Shot == "" && given("from") && given("to")
}
