package store

import (
	"sync"

	"fascia/design/panel"
	"fascia/design/record"
)

// keptOpen is how many panels stay decoded: those that somebody is working on.
const keptOpen = 16

// recent keeps the panels that were read or changed last, so that an edit need not decode the whole
// project file again. What it holds is never changed; a panel goes in and comes out as a clone.
type recent struct {
	mu     sync.Mutex
	panels map[record.ID]revision
	order  []record.ID // least recently used first
}

type revision struct {
	rev   int64
	panel panel.Panel
}

func newRecent() *recent { return &recent{panels: map[record.ID]revision{}} }

// get returns revision rev of a panel, if it is at hand.
func (c *recent) get(id record.ID, rev int64) (panel.Panel, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	r, ok := c.panels[id]
	if !ok || r.rev != rev {
		return panel.Panel{}, false
	}
	return r.panel.Clone(), true
}

// put keeps a revision, unless a newer one is at hand: a slow reader may come after a writer.
func (c *recent) put(id record.ID, rev int64, p panel.Panel) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if r, ok := c.panels[id]; ok && r.rev > rev {
		return
	}
	for i, old := range c.order {
		if old == id {
			c.order = append(c.order[:i], c.order[i+1:]...)
			break
		}
	}
	c.panels[id] = revision{rev, p.Clone()}
	c.order = append(c.order, id)
	if len(c.order) > keptOpen {
		delete(c.panels, c.order[0])
		c.order = c.order[1:]
	}
}
