package picture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/camera/picture"
)

// home sets where axis i is at home.
func (f fake) home(i int, at float64) fake {
	f.axes[i].Home = at
	return f
}

// A push-in from home: what is nearest is its end, 440 - 300 - 40 mm off.
func TestWayToTheStart(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 24).with("push", steady(300, 0)), bench()), "way to the start")
	assert.InDelta(t, 100, figure(t, v, "gap to swept circle"), 1e-6)
	assert.Equal(t, picture.Good, v.Level)
}

// A carriage whose home is 20 mm inside the product does not get away from it
// unharmed, though the take is clear.
func TestHomeInsideTheProduct(t *testing.T) {
	r := examine(t, at(t, 120, 24).with("push", steady(0, 0)).home(0, 420), bench())
	assert.Equal(t, picture.Good, find(t, r, "clearance").Level)
	v := find(t, r, "way to the start")
	assert.InDelta(t, -20, figure(t, v, "gap to swept circle"), 1e-6)
	assert.Equal(t, picture.Block, v.Level)
	assert.True(t, r.Blocks())
}

// Axes go one after the other in their order: across and then in is clear where
// In and then across would scrape by.
func TestTheOrderOfTheWayCounts(t *testing.T) {
	s := bench()
	across, push := steady(-200, 0), steady(420, 0)
	clear := at(t, 120, 24).with("across", across).with("push", push)
	scrapes := at(t, 120, 24).with("push", push).with("across", across)
	assert.Equal(t, picture.Good, find(t, examine(t, clear, s), "way to the start").Level)
	v := find(t, examine(t, scrapes, s), "way to the start")
	assert.Equal(t, picture.Block, v.Level)
}

func TestEveryAxisAtHome(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 24).with("push", swing(0, 90, 0.2)), bench()), "way to the start")
	assert.Equal(t, "every axis begins at home", v.Text)
}
