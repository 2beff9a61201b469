package selectlist_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// A row has the frames of its film and their timecode; one without a film has those cells empty,
// and a table without any no such columns.
func TestFilmsReadBack(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	p := tr.Plan()
	shown := p.Loop.Captured
	film := filmed.Film{
		File: "A001C004.mov", Rate: exact.New(30000, 1001), Timecode: "00:00:59;20", Frames: 900, Zero: 7.3, Sure: 0.0123, By: filmed.ByPicture,
		Round: 1, In: 7 + p.RoundFrames(), Out: 7 + p.RoundFrames() + shown, Verdict: "THE PLAN", Apart: 0.123, Hands: []string{"bead late by 4 frames", "pour inside"},
	}
	unknown := filmed.Film{File: "B.mov", Frames: 10}
	got := rows(t, text(t, tr, []selects.Filmed{
		{Number: 2, Plan: p.Hash(), Rounds: 3, Clip: "A001C004.mov", Film: &film},
		{Number: 4, Plan: p.Hash(), Rounds: 3, Clip: "B.mov", Film: &unknown},
		{Number: 5, Plan: p.Hash(), Rounds: 3},
	}))
	require.Len(t, got, 3)
	for title, want := range map[string]string{
		"film": "A001C004.mov", "film_rate": "30000/1001", "film_frames": "900", "film_frame_0": "7.300", "film_frame_0_uncertainty": "0.012",
		"film_rounded": "-0.300", "film_hands": "bead late by 4 frames; pour inside", "film_verdict": "THE PLAN", "film_apart_px": "0.12", "film_timecode_first": film.Label(film.In),
		"film_timecode_last": film.Label(film.Out - 1), "film_timecode_seam": film.Label(film.Out), "clip": "A001C004.mov",
	} {
		require.Equal(t, want, got[0][title], title)
	}
	require.Contains(t, got[0]["film_timecode_first"], ";")
	require.Equal(t, "B.mov", got[1]["film"])
	for _, title := range []string{"film_rate", "film_frame_0", "film_first", "film_last", "film_seam", "film_timecode_first", "film_rounded"} {
		require.Empty(t, got[1][title], title)
		require.Empty(t, got[2][title], title)
	}
	require.NotContains(t, text(t, tr, []selects.Filmed{{Number: 5, Plan: p.Hash(), Rounds: 3}}), "film_")
}
