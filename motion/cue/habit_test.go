package cue_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/cue"
)

// NIST, Statistical Reference Datasets, DOI 10.18434/T43G6C, univariate
// summary statistics, set NumAcc1: mean 10000002, standard deviation 1; and
// NumAcc2, 1.2 and then 1.1 and 1.3 in turn five hundred times: mean 1.2,
// standard deviation 0.1.
func TestHabitAgainstCertifiedValues(t *testing.T) {
	h := cue.HabitOf([]float64{10000001, 10000003, 10000002})
	assert.Equal(t, cue.Habit{Takes: 3, Mean: 10000002, Spread: 1}, h)
	late := []float64{1.2}
	for range 500 {
		late = append(late, 1.1, 1.3)
	}
	h = cue.HabitOf(late)
	assert.InDelta(t, 1.2, h.Mean, 1e-13)
	assert.InDelta(t, 0.1, h.Spread, 1e-13)
}

func TestShift(t *testing.T) {
	assert.Zero(t, cue.Habit{}.Shift().Sign())
	assert.Zero(t, cue.HabitOf(nil).Shift().Sign())
	assert.Equal(t, "3/100", cue.HabitOf([]float64{0.09}).Shift().String(), "a third of one take")
	assert.Equal(t, "-1/25", cue.HabitOf([]float64{-0.08, -0.06, -0.07, -0.03}).Shift().String(), "two thirds of four")
}

// The posterior mean of a normal mean with a normal prior about 0, by the
// formula with variances (Gelman and others, Bayesian Data Analysis,
// section 2.5): weights are what is certain.
func TestShiftIsAPosteriorMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		late := rapid.SliceOfN(rapid.Float64Range(-0.5, 0.5), 1, 20).Draw(t, "late")
		const sigma2, tau2 = 0.0050, 0.0025 // of takes, and of hands: half as much
		sum, n := 0., float64(len(late))
		for _, x := range late {
			sum += x
		}
		posterior := (sum / sigma2) / (1/tau2 + n/sigma2)
		assert.InDelta(t, posterior, cue.HabitOf(late).Shift().Float(), 0.00005+1e-12)
	})
}

// A hand that is always late by the same comes to be on time: each take is seen
// less late by the shift then in force, and counts for what it would have been.
func TestAShiftSettles(t *testing.T) {
	const truly = 0.12
	var log []float64
	for range 40 {
		shift := cue.HabitOf(log).Shift().Float()
		seen := truly - shift
		log = append(log, seen+shift)
	}
	assert.InDelta(t, truly, cue.HabitOf(log).Shift().Float(), truly/20)
}
