package page

import (
	"context"
	"time"

	"seamrail/motion/base/source"
)

// question is a text and what to change in it.
type question struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
	Quick bool   `json:"quick"`
}

// Answer is the text after the changes and what it plans to.
type Answer struct {
	Text   string  `json:"text"`
	Millis float64 `json:"ms"`
	Faults []Fault `json:"faults"`
	View   *View   `json:"view"` // null where the text plans to nothing
	// Refused says that the text is as it was, since the shot could not be planned after
	// the changes; Fits would do instead.
	Refused bool     `json:"refused"`
	Fits    []Fit    `json:"fits"`
	At      string   `json:"at"`   // the path of what was added last
	Told    []string `json:"told"` // what came or went with a change
}

func (s *desk) plan(ctx context.Context, q question) (Answer, error) {
	if !q.Quick {
		return s.answer(ctx, q), ctx.Err()
	}
	text := ""
	end := s.glances.enter(q)
	defer func() { end(text) }()
	a := s.answer(ctx, q)
	if a.View != nil {
		text = a.Text
	}
	return a, ctx.Err()
}

func (s *desk) answer(ctx context.Context, q question) Answer {
	began := time.Now()
	out := Answer{Faults: []Fault{}, Fits: []Fit{}, Told: []string{}}
	err := s.change(ctx, q, &out)
	if err == nil {
		out.View, err = s.view(ctx, out.Text, q.Quick)
	}
	if err != nil {
		out.Faults = faultsOf(err)
	}
	if err != nil && ctx.Err() == nil {
		s.refuse(ctx, q, &out)
		if !out.Refused && !q.Quick {
			s.mended(ctx, out.Text, err, out.Faults)
		}
	}
	out.Millis = float64(time.Since(began).Microseconds()) / 1000
	return out
}

// refuse takes changes back after which a shot could not be planned any more that could be
// before them. What is typed as text is never taken back.
func (s *desk) refuse(ctx context.Context, q question, out *Answer) {
	if len(q.Edits) == 0 {
		return
	}
	if _, err := s.plannedTo(ctx, q.Text, sound); err != nil {
		return
	}
	out.Text, out.Refused, out.At, out.Told = q.Text, true, "", []string{}
	if len(q.Edits) == 1 && !q.Quick {
		out.Fits = s.instead(q.Text, q.Edits[0], out.Faults)
	}
}

// edited is a text with changes made.
func (s *desk) edited(ctx context.Context, text string, edits []Edit) (string, error) {
	out := Answer{}
	err := s.change(ctx, question{Text: text, Edits: edits}, &out)
	return out.Text, err
}

// change makes the changes one after the other. Where one cannot be made, or ctx has ended,
// the text is as far as it came. Values that come together are made together: one by one
// they need not suit each other.
func (s *desk) change(ctx context.Context, q question, out *Answer) error {
	out.Text = q.Text
	for _, e := range q.Edits {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if e.Do == doRename && e.Value != nil {
			text, err := source.Rename(s.doc.name, []byte(out.Text), e.Path, *e.Value)
			if err != nil {
				return err
			}
			out.Text = string(text)
			continue
		}
		if e.Do != "" || e.Value != nil && len(q.Edits) == 1 {
			done, err := s.reshaped(out.Text, e)
			if err != nil {
				return err
			}
			out.Text, out.At, out.Told = string(done.Text), done.At, append(out.Told, done.Told...)
			continue
		}
		sets, write, err := s.sets(out.Text, e)
		if err != nil {
			return err
		}
		for _, x := range sets {
			text, err := write(out.Text, x.Path, x.Value)
			if err != nil {
				return err
			}
			out.Text = text
		}
	}
	return nil
}

// sets are the values that an edit gives, its own or those where something was dragged to, and
// what writes them. Of a shot with nothing under it, which is what is dragged mostly, it need
// not be read anew where they stand.
func (s *desk) sets(text string, e Edit) ([]Set, func(text, path, value string) (string, error), error) {
	if e.Value != nil {
		return []Set{{e.Path, *e.Value}}, s.doc.set, nil
	}
	p, err := s.plannedTo(context.Background(), text, posed)
	if err != nil {
		return nil, nil, err
	}
	list, err := dragged(p, e)
	if p.Shot.Laid.Set == nil {
		return list, s.doc.setOwn, err
	}
	return list, s.doc.set, err
}
