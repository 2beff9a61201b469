package source

import "fmt"

// SetOver is Set for a document that lies over others as laid: the value at a path of
// that is written into the document itself, wherever it stands now. A table of a list
// that the document does not have yet is added under its name. own is the document as it
// was parsed.
func SetOver(file string, data []byte, laid, own *Doc, path, text string) ([]byte, error) {
	local, missing := laid.root.local(own.root, stepsOf(path))
	for _, m := range missing {
		feed := lineFeed(data)
		data = append([]byte(nil), data...)
		if len(data) > 0 && data[len(data)-1] != '\n' {
			data = append(data, feed...)
		}
		data = fmt.Appendf(data, "%s[[%s]]%s%s = %s%s", feed, tomlKey(m.list...), feed, nameKey, written(m.name, false), feed)
		if len(m.list) == len(local)-1 {
			data = fmt.Appendf(data, "%s = %s%s", tomlKey(local[len(local)-1]), written(text, false), feed)
		}
	}
	return Set(file, data, pathOf(local), text)
}

// Own is a path of a document that was laid over others as it is in one of these, and
// false where nothing stands there.
func (d *Doc) Own(own *Doc, path string) (string, bool) {
	local, missing := d.root.local(own.root, stepsOf(path))
	return pathOf(local), len(missing) == 0 && own.root.at(pathOf(local)) != nil
}

// unlisted is a table that a list of the document has not.
type unlisted struct {
	list []pathStep
	name string
}

// local is a path as it is in one of the documents that a tree was laid of, and the
// tables of lists that it has not.
func (n *node) local(own *node, steps []pathStep) (out []pathStep, missing []unlisted) {
	for _, s := range steps {
		out = append(out, s)
		n, own = n.below(s.key), own.below(s.key)
		if s.item == 0 || n == nil || s.item < 1 || s.item > len(n.items) {
			continue
		}
		item, last := n.items[s.item-1], &out[len(out)-1]
		have, at := 0, -1
		if own != nil {
			have, at = len(own.items), item.among(own.items)
		}
		if last.item = at + 1; at < 0 {
			last.item = have + 1
			bare := append([]pathStep(nil), out...)
			bare[len(bare)-1].item = 0
			missing, own = append(missing, unlisted{bare, item.name()}), nil
		} else {
			own = own.items[at]
		}
		n = item
	}
	return out, missing
}

// below is the value under a key, nil where there is none, or nothing to have one.
func (n *node) below(key string) *node {
	if n == nil {
		return nil
	}
	return n.child(key)
}

// among finds the table of a list that has the name of this one, or a value of it; -1
// where there is none.
func (n *node) among(items []*node) int {
	values := map[*node]bool{}
	n.leaves("", func(_ string, v *node) { values[v] = true })
	for i, item := range items {
		same := n.name() != "" && item.name() == n.name()
		item.leaves("", func(_ string, v *node) { same = same || values[v] })
		if same {
			return i
		}
	}
	return -1
}
