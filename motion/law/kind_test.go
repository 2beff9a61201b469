package law

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trial is a law that nobody has heard of.
type trial struct{ harmonic }

func (trial) Name() string { return "trial" }

// A new law is a type and a line of the list: then it is named, listed, suggested and a
// kind that can be asked for.
func TestALawIsALine(t *testing.T) {
	defer func(was []Law) { all = was }(all)
	all = append(All(), trial{})
	assert.Contains(t, Names(), "trial")
	l, err := Named("trial")
	require.NoError(t, err)
	assert.Equal(t, trial{}, l)
	_, err = Named("trail")
	assert.ErrorContains(t, err, `did you mean "trial"`)
	kinds := Kinds()
	k := kinds[len(kinds)-1]
	assert.Equal(t, "trial", k.Name())
	assert.Empty(t, k.Takes())
	made, err := k.Make(Spec{})
	require.NoError(t, err)
	assert.Equal(t, l, made)
}

// One law only is even, and says so.
func TestEvenLaws(t *testing.T) {
	for _, l := range All() {
		assert.Equal(t, l.Peaks().A == 0 && l.At(0).V != 0, IsEven(l), l.Name())
	}
}
