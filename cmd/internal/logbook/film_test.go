package logbook

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/selects"
)

var evening = time.Date(2026, 3, 14, 21, 0, 0, 0, time.UTC)

// written is a log of a shot, with records at minutes of an evening.
func written(t *testing.T, records ...takelog.Record) (shot string) {
	t.Helper()
	shot = filepath.Join(t.TempDir(), "lantern.toml")
	f, w, err := appendTo(NameOf(shot))
	require.NoError(t, err)
	for _, r := range records {
		require.NoError(t, w.Add(r))
	}
	require.NoError(t, f.Close())
	return shot
}

// take are the records of one, at a minute, of so many rounds.
func take(number, minute int, change func(begin, end *takelog.Record)) []takelog.Record {
	at := evening.Add(time.Duration(minute) * time.Minute)
	b := takelog.Record{Kind: takelog.Begun, Take: number, Time: at, Plan: "mine", Rounds: 3}
	e := takelog.Record{Kind: takelog.Ended, Take: number, Time: at.Add(20 * time.Second), Rounds: 3, Outcome: "finished"}
	if change != nil {
		change(&b, &e)
	}
	return []takelog.Record{b, e}
}

func all(takes ...[]takelog.Record) (out []takelog.Record) {
	for _, t := range takes {
		out = append(out, t...)
	}
	return out
}

// What is written of a film is what is read of it, and what is said afterwards of the take counts.
func TestAFilmIsKept(t *testing.T) {
	shot := written(t, all(take(1, 0, nil), take(2, 5, nil))...)
	film := filmed.Film{
		File: "B.mov", Rate: exact.New(24000, 1001), Timecode: "01:00:00:00", Frames: 300, Zero: 37.38, Sure: 0.012, By: filmed.ByPicture, Trusted: true,
		Late: 0.2, Longer: -0.1, Round: 1, In: 85, Out: 133, Verdict: "THE PLAN", Apart: 0.12, Still: "a.png",
		Loop: filmed.Loop{From: 80, Frames: 48, Unseen: true, AsGood: true},
	}
	marks := []takelog.Record{RecordOf(2, film, ByNumber, []takelog.Action{{Cue: "bead", Round: 1, How: "early", Off: -3, From: 90, To: 99}, {Cue: "pour", Round: 1, How: "inside"}, {Cue: "pour", How: "not seen"}})}
	require.NoError(t, Mark(shot, 0, marks, evening))
	kept := func() []selects.Filmed {
		log, err := pick(NameOf(shot), isKept)
		require.NoError(t, err)
		return wanted(log, true, "mine")
	}
	got := kept()
	require.Len(t, got, 1)
	require.Equal(t, 2, got[0].Number)
	require.Equal(t, "B.mov", got[0].Clip)
	film.Hands = []string{"bead early by 3 frames", "pour inside"}
	require.Equal(t, &film, got[0].Film)

	say := func(r takelog.Record) { require.NoError(t, Mark(shot, 2, []takelog.Record{r}, evening)) }
	say(takelog.Record{Kind: takelog.Clipped, Clip: "B.mov"})
	require.NotNil(t, kept()[0].Film, "it is called so already")
	say(takelog.Record{Kind: takelog.Clipped, Clip: "C.mov"})
	require.Nil(t, kept()[0].Film, "another clip is another film")
	say(takelog.Record{Kind: takelog.Filmed})
	require.Equal(t, "C.mov", kept()[0].Clip, "a record without a film says nothing")
	say(takelog.Record{Kind: takelog.Refused, Why: "the glass rang"})
	require.Empty(t, kept())
	require.NoError(t, Mark(shot, 0, marks, evening))
	require.Len(t, kept(), 1, "a film that is kept takes the rejection back")
}

// TestWhichTakeItCanBe: each take that cannot be kept says why, by its name.
func TestWhichTakeItCanBe(t *testing.T) {
	film := RecordOf(1, filmed.Film{File: "A.mov", By: filmed.ByPicture}, ByNumber, nil)
	shot := written(t, append(all(
		take(1, 0, nil),
		take(2, 5, func(b, _ *takelog.Record) { b.Plan = "other" }),
		take(3, 10, nil)[:1],
		take(4, 15, func(_, e *takelog.Record) { e.Held = true }),
		take(5, 20, func(_, e *takelog.Record) { e.Outcome = "stopped" }),
		take(6, 25, func(_, e *takelog.Record) { e.Rounds = 0 }),
		take(7, 30, func(b, _ *takelog.Record) { b.Of = 24 }),
		take(8, 35, func(b, e *takelog.Record) { b.Virtual, e.Virtual = true, true }),
		take(9, 40, nil),
	), film)...)
	f, err := Keepable(shot, "mine")
	require.NoError(t, err)
	for number, says := range map[int]string{
		2: "was filmed by another plan, other, and this one is mine: what B.mov shows does not follow from it",
		3: "cannot be kept: nothing is told of its end", 4: "out of step with the frames", 5: `it ended as "stopped"`, 6: "it has no whole round",
		7: "was taken frame by frame", 8: "there is no take 8 in", 10: "its takes are 1, 2, 3, 4, 5, 6, 7, 9",
		1: `take 1 is kept as A.mov already; "seamrail takes --take 1 --drop" takes that back`,
	} {
		_, err := f.Take(number, "B.mov")
		assert.ErrorContains(t, err, says, "take %d", number)
	}
	_, err = f.Take(9, "A.mov")
	assert.ErrorContains(t, err, "A.mov is kept as take 1 already")
	_, err = f.Take(9, "B.mov")
	assert.NoError(t, err)
	_, err = f.Take(1, "A.mov")
	assert.NoError(t, err, "anew")
	n, ok := f.Called("A.mov")
	assert.Equal(t, 1, n)
	assert.True(t, ok)
	_, ok = f.Called("B.mov")
	assert.False(t, ok)

	require.NoError(t, Mark(shot, 1, []takelog.Record{{Kind: takelog.Keeper}}, evening))
	f, err = Keepable(shot, "mine")
	require.NoError(t, err)
	_, err = f.Take(1, "B.mov")
	assert.NoError(t, err, "what was dropped is free")
}

// By its time: a film of 1200 frames at 24 a second whose frame 0 is its frame 120, of takes that
// begin 2 s of run-up before theirs.
func TestByTimeAndLength(t *testing.T) {
	shown := func(zeroAt time.Time) Shown {
		return Shown{Wrote: zeroAt.Add(45 * time.Second), Frames: 1200, Zero: 120, PerSec: 24, Round: 300, RunUp: 2}
	}
	of := func(records ...takelog.Record) Filmable {
		f, err := Keepable(written(t, records...), "mine")
		require.NoError(t, err)
		return f
	}
	apart := of(all(take(1, 0, nil), take(2, 10, nil), take(3, 20, nil))...)
	second := evening.Add(10*time.Minute + 2*time.Second)
	for off, want := range map[time.Duration]int{0: 2, 59 * time.Second: 2, -59 * time.Second: 2, 61 * time.Second: 0, -61 * time.Second: 0, 10 * time.Minute: 3} {
		n, err := apart.At("B.mov", shown(second.Add(off)))
		if want == 0 {
			assert.ErrorContains(t, err, "by its time and its length it may be take 2; say it, as in --keep B.mov=3", "%s", off)
			continue
		}
		require.NoError(t, err, "%s", off)
		assert.Equal(t, want, n, "%s", off)
	}
	_, err := apart.At("B.mov", shown(second.Add(time.Hour)))
	assert.ErrorContains(t, err, "by its time and its length it is none of them")

	// Never of two that are near each other, nor of one that the film is too short for, nor of one of
	// which the log does not have when it began.
	near := of(all(take(1, 7, nil), take(2, 10, nil))...)
	_, err = near.At("B.mov", shown(second))
	assert.ErrorContains(t, err, "it may be take 2 or 1")
	short := shown(second)
	short.Frames, short.Wrote = 1019, second.Add(899*time.Second/24)
	_, err = apart.At("B.mov", short)
	assert.ErrorContains(t, err, "it may be take 2")
	short.Frames, short.Wrote = 1020, second.Add(900*time.Second/24)
	_, err = apart.At("B.mov", short)
	assert.NoError(t, err)
	hand := of(take(2, 10, func(b, _ *takelog.Record) { b.ByHand = true })...)
	_, err = hand.At("B.mov", shown(second))
	assert.ErrorContains(t, err, "it is none of them")

	// One that is another film is none of the two.
	kept := of(append(all(take(1, 9, nil), take(2, 10, nil)), RecordOf(1, filmed.Film{File: "A.mov"}, ByNumber, nil))...)
	n, err := kept.At("B.mov", shown(second))
	require.NoError(t, err)
	assert.Equal(t, 2, n)
}

// A log that is not there, has no take, or is not to be written to is told of before anything is
// looked through.
func TestALogThatCannotBeWritten(t *testing.T) {
	_, err := Keepable(filepath.Join(t.TempDir(), "none.toml"), "mine")
	assert.ErrorContains(t, err, "there is no take to mark")
	shot := written(t, take(1, 0, nil)...)
	if os.Geteuid() == 0 {
		t.Skip("whoever may do anything may write anything")
	}
	require.NoError(t, os.Chmod(NameOf(shot), 0o400))
	_, err = Keepable(shot, "mine")
	assert.ErrorContains(t, err, "cannot write the take log")
}
