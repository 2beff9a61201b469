package console

import (
	"strings"
	"unicode"

	"seamrail/cmd/internal/deadman"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
)

// wordSpace stands for a space in what is typed: the space bar stops, whatever else
// is going on.
const wordSpace = "_"

// ask begins to ask for words of the last take.
func (p *Panel) ask(k Key) {
	if !p.markable() {
		return
	}
	what := "Why it is of no use"
	clip := unicode.ToLower(rune(k)) == 'c'
	if clip {
		what = "The camera's file name, or card and clip number"
	}
	p.line("%s, and Enter; type %s for a space, which stops:", what, wordSpace)
	p.typed, p.prompt = nil, func(text string) (drive.Request, bool) {
		if err := p.worded(strings.ReplaceAll(text, wordSpace, " "), clip); err != nil {
			p.told("not marked: " + err.Error())
		}
		return drive.Request{}, false
	}
}

// worded marks the last take with the clip it is, or with why it is of no use.
func (p *Panel) worded(text string, clip bool) (err error) {
	if clip {
		if text, err = takelog.ClipName(text); err == nil {
			p.markTake(takelog.Record{Kind: takelog.Clipped, Clip: text}, "is "+text)
		}
	} else if text, err = takelog.Words("why", text); err == nil {
		p.markTake(takelog.Record{Kind: takelog.Refused, Why: text}, "is rejected: "+text)
	}
	return err
}

// markable tells whether there is a take to mark, and says why not.
func (p *Panel) markable() bool {
	switch {
	case p.MarkTake == nil:
		p.line("a rig made of software films nothing: there is no take to mark")
	case p.taken == 0:
		p.line("there is no take to mark yet")
	default:
		return true
	}
	return false
}

// Written waits until all marks of takes are in the log: who keeps a take and leaves at
// once has kept it.
func (p *Panel) Written() { p.marks.Wait() }

// markTake marks the last take. A disk may take its time, and no key waits for it.
func (p *Panel) markTake(mark takelog.Record, words string) {
	take := p.taken
	p.marks.Add(1)
	deadman.Go(func() {
		defer p.marks.Done()
		err := p.MarkTake(take, mark)
		p.mu.Lock()
		defer p.mu.Unlock()
		if err != nil {
			p.told(err.Error())
			return
		}
		p.line("take %d %s", take, words)
	})
}
