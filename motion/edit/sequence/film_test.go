package sequence

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
)

// TestStillsAreCounted: a bit rate is of film, and says nothing of stills.
func TestStillsAreCounted(t *testing.T) {
	film := Film{Recorded: 240, Record: exact.Int(10)}
	stills := Film{Recorded: 240, Record: exact.Int(480), Stills: true}
	rate, frame := exact.Int(50e6), exact.Int(25e6)
	for _, c := range []struct {
		card         Card
		film, stills int64
	}{
		{Card{}, 0, 0},
		{Card{Rate: rate}, 500e6, 0},
		{Card{Frame: frame}, 6000e6, 6000e6},
		{Card{Rate: rate, Frame: frame}, 500e6, 6000e6},
	} {
		assert.Equal(t, c.film, c.card.bytes(film).Whole(), "%+v", c.card)
		assert.Equal(t, c.stills, c.card.bytes(stills).Whole(), "%+v", c.card)
	}
	known := Totals{Bytes: rate}
	assert.Equal(t, rate, known.All())
	known.Unsized = 1
	assert.Zero(t, known.All().Sign(), "a part is not all")
	assert.True(t, exact.New(99, 10).Less(minFilm))
	assert.False(t, exact.Int(10).Less(minFilm))
}
