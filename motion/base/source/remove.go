package source

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"seamrail/motion/base/fault"
)

// Remove returns the document without what stands at a path: a key, a table with all
// below it, or an item of a list, each with the comment lines that are its own. Every
// other byte is as it was, but for the blank line before a table. The error is a
// fault.List: the document is not TOML, or there is nothing at the path.
func Remove(file string, data []byte, path string) ([]byte, error) {
	return reshaped(file, data, path, "is not there to be taken out", func(body []byte, root *node) []byte {
		if root.at(path) == nil {
			return nil
		}
		return removed(body, path)
	}, func(was, now *node) bool { return sameBut(now, was, path) })
}

// reshaped does a change of structure and sees to it that what comes out is what was
// meant: right tells so of the trees before and after.
func reshaped(file string, data []byte, path, bound string, change func(body []byte, root *node) []byte, right func(was, now *node) bool) ([]byte, error) {
	root, faults := parse(file, "", data)
	if len(faults) > 0 {
		return nil, faults.Err()
	}
	body := bytes.TrimPrefix(data, []byte("\ufeff"))
	f := fault.Fault{File: file, Bound: bound}
	f.Axis, f.Quantity = split(path)
	out := change(body, root)
	if out == nil {
		return nil, fault.List{f}
	}
	out = append(bytes.Clone(data[:len(data)-len(body)]), out...)
	now, faults := parse(file, "", out)
	if len(faults) > 0 || !right(root, now) {
		f.Bound, f.Fit = "stands in the file in a way that it cannot be changed by itself", "change it in the text"
		return nil, fault.List{f}
	}
	return out, nil
}

// sameBut tells whether one document has all that another has, and besides only what
// stands at a path: items of the same list come after it.
func sameBut(less, more *node, path string) bool {
	if more.at(path) == nil {
		return false
	}
	have := map[string]string{}
	less.leaves("", func(at string, n *node) { have[at] = n.text })
	steps, same := stepsOf(path), true
	own := steps[len(steps)-1]
	list := pathOf(append(steps[:len(steps)-1:len(steps)-1], pathStep{key: own.key}))
	more.leaves("", func(at string, n *node) {
		if below(at, path) {
			return
		}
		if rest, ok := strings.CutPrefix(at, list+"["); ok && own.item > 0 {
			index, deeper, _ := strings.Cut(rest, "]")
			if i, _ := strconv.Atoi(index); i > own.item {
				at = indexed(list, i-1) + deeper
			}
		}
		text, there := have[at]
		same = same && there && text == n.text
		delete(have, at)
	})
	return same && len(have) == 0
}

func removed(data []byte, path string) []byte {
	l := laidOut(data)
	var gone []span
	for i, p := range l.parts {
		if i > 0 && below(p.path, path) {
			gone = append(gone, l.whole(i))
			continue
		}
		for j, k := range p.keys {
			if below(k.path, path) {
				gone = append(gone, l.ofKey(p, j))
			}
		}
	}
	if gone == nil {
		at, value, ok := l.holding(path)
		if !ok {
			return nil
		}
		all := l.pieces(at, value)
		for i := len(all) - 1; i >= 0; i-- {
			if below(all[i].path, path) {
				return l.without(all, i)
			}
		}
		return nil
	}
	for _, g := range slices.Backward(gone) {
		data = splice(data, g.from, g.to, "")
	}
	return data
}

// whole is what goes with part i: its comment lines, and one blank line before it, or
// after it where it is the first.
func (l layout) whole(i int) span {
	p := l.parts[i]
	if len(bytes.TrimSpace(l.data[:p.lead])) == 0 {
		to := lineFeedAfter(l.data, p.end)
		if end := lineEnd(l.data, to); end > to || to == len(l.data) {
			return span{0, to}
		}
		return span{0, lineFeedAfter(l.data, to)}
	}
	from := lineBefore(l.data, p.lead)
	if above := lineStart(l.data, from); len(bytes.TrimSpace(l.data[above:from])) == 0 && above > 0 {
		return span{lineBefore(l.data, above), p.end}
	}
	if after := l.lineAfter(p.end); after.from < len(l.data) && len(bytes.TrimSpace(l.data[after.from:after.to])) == 0 {
		return span{from, after.to}
	}
	return span{from, p.end}
}

// lineBefore is where the line ends that stands before one that begins at a byte.
func lineBefore(data []byte, start int) int {
	end := start - 1
	if end > 0 && data[end-1] == '\r' {
		end--
	}
	return end
}

// ofKey is what goes with key j of a part: its lines, the comment lines above that no
// other key or header has, and those that go on below with what is said behind it.
func (l layout) ofKey(p part, j int) span {
	k := p.keys[j]
	from, bound := k.start, p.head
	if j > 0 {
		bound = l.goesOn(p, j-1)
	}
	if j > 0 || p.path == "" {
		from = l.leadOf(bound, k.start)
	}
	if p.path == "" && j == 0 && from == 0 { // what stands above all is the file's
		from = k.start
	}
	to := l.goesOn(p, j)
	if from == 0 {
		return span{0, lineFeedAfter(l.data, to)}
	}
	return span{lineBefore(l.data, from), to}
}

// goesOn is where the comment ends that begins behind key j of a part: lines below that
// are indented go on with it.
func (l layout) goesOn(p part, j int) int {
	end := p.keys[j].end
	if _, remark := Remark(string(l.data[p.keys[j].value.to:end])); remark == "" {
		return end
	}
	for at := end; at < len(l.data); {
		line := l.lineAfter(at)
		text := l.data[line.from:line.to]
		if bare := bytes.TrimLeft(text, " \t"); len(bare) == len(text) || len(bare) == 0 || bare[0] != '#' || IsAside(string(text)) {
			break
		}
		end, at = line.to, line.to
	}
	return end
}
