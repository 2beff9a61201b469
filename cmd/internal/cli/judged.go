package cli

import (
	"sync"

	"seamrail/motion/judge"
	"seamrail/motion/picture"
	"seamrail/motion/verify"
)

// judged is a job as it is judged and the verdicts on it that are none of the
// picture's, worked out when they are first asked for.
type judged struct {
	once     sync.Once
	of       judge.Case
	verdicts []picture.Verdict
}

// judgeCase is the job as it is judged, without what its controller makes of it.
func (j job) judgeCase() judge.Case {
	j.judged.once.Do(func() {
		j.judged.of = judge.Case{
			Shot: j.shot, Rig: j.rig, Plan: j.plan, Verified: j.verdict, Picture: j.picture, Shakes: j.shakes(), Cues: j.cues, Pending: true,
		}
		j.judged.verdicts = j.judged.of.Verdicts()
	})
	return j.judged.of
}

// others are the verdicts that are none of the picture's.
func (j job) others() []picture.Verdict {
	_ = j.judgeCase() // which has them
	return j.judged.verdicts
}

// glancedHeadline is the headline before it is known whether the controller follows.
func (j job) glancedHeadline() judge.Headline { return j.judgeCase().Headline(j.others()) }

// headline is what is said first of the job, wherever anything is.
func (j job) headline() judge.Headline {
	c := j.judgeCase()
	c.Pending, c.Controller = false, j.expected()
	return c.Headline(j.others())
}

// told is the verifier's word, with what else fails or is not known, for the head
// of a file.
func (j job) told() verify.Verdict {
	v, h := j.verdict, j.glancedHeadline()
	v.Fails, v.Unknown = h.Fails, h.Unknown
	return v
}
