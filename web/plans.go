package web

import (
	"context"
	"fmt"
	"sync"

	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
	"fascia/design/wiring"
)

// keptPlans is how many plans stay at hand: a few open panels, and for each the revisions between
// which undo and redo go.
const keptPlans = 32

// A planCache works out each revision's plan once, outside any transaction. Plans are shared.
type planCache struct {
	make func(*panel.Panel) *plan.Plan

	mu    sync.Mutex
	made  map[planKey]*madePlan
	order []planKey // least recently asked for first
}

type planKey struct {
	id  record.ID
	rev int64
}

// A madePlan is ready once done is closed.
type madePlan struct {
	done   chan struct{}
	plan   *plan.Plan
	files  func() ([]record.File, error) // written when first asked for
	prices func() []wiring.WishPrice     // what wishes about wires cost, reckoned when first asked for
	err    error
}

func newPlanCache(make func(*panel.Panel) *plan.Plan) *planCache {
	return &planCache{make: make, made: map[planKey]*madePlan{}}
}

// plan returns the plan of p, which is revision rev of panel id. Everyone who asks while it is being
// worked out waits for the same one.
func (c *planCache) plan(ctx context.Context, id record.ID, rev int64, p panel.Panel) (*plan.Plan, error) {
	m, err := c.wait(ctx, planKey{id, rev}, p)
	if err != nil {
		return nil, err
	}
	return m.plan, nil
}

// files returns the outputs of the plan of p, which is revision rev of panel id.
func (c *planCache) files(ctx context.Context, id record.ID, rev int64, p panel.Panel) ([]record.File, error) {
	m, err := c.wait(ctx, planKey{id, rev}, p)
	if err != nil {
		return nil, err
	}
	return m.files()
}

// wirePrices returns what the maker's wishes about wires cost in the plan of p.
func (c *planCache) wirePrices(ctx context.Context, id record.ID, rev int64, p panel.Panel) ([]wiring.WishPrice, error) {
	m, err := c.wait(ctx, planKey{id, rev}, p)
	if err != nil {
		return nil, err
	}
	return m.prices(), nil
}

func (c *planCache) wait(ctx context.Context, key planKey, p panel.Panel) (*madePlan, error) {
	m := c.entry(key, p)
	select {
	case <-m.done:
		return m, m.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func (c *planCache) entry(key planKey, p panel.Panel) *madePlan {
	c.mu.Lock()
	defer c.mu.Unlock()
	m, ok := c.made[key]
	if !ok {
		m = &madePlan{done: make(chan struct{})}
		c.made[key] = m
		go c.work(m, p)
	}
	c.touch(key)
	return m
}

// touch moves key to the young end and drops the oldest plans.
func (c *planCache) touch(key planKey) {
	for i, k := range c.order {
		if k == key {
			c.order = append(c.order[:i], c.order[i+1:]...)
			break
		}
	}
	c.order = append(c.order, key)
	for len(c.order) > keptPlans {
		delete(c.made, c.order[0])
		c.order = c.order[1:]
	}
}

// work fills m. A panic of the planner is a mistake in the program; it must not take down the
// edits, which are safe in the store.
func (c *planCache) work(m *madePlan, p panel.Panel) {
	defer close(m.done)
	defer func() {
		if fault := recover(); fault != nil {
			m.err = fmt.Errorf("plan of %q: %v", p.Name, fault)
		}
	}()
	m.plan = c.make(&p)
	m.files = sync.OnceValues(func() ([]record.File, error) { return write(m.plan) })
	m.prices = sync.OnceValue(func() []wiring.WishPrice {
		return wiring.Price(m.plan.Panel, &m.plan.Fit, &m.plan.Nets, &m.plan.Wiring)
	})
}

func write(made *plan.Plan) ([]record.File, error) {
	files, err := made.Files()
	if err != nil {
		return nil, fmt.Errorf("write outputs: %w", err)
	}
	list := make([]record.File, len(files))
	for i, f := range files {
		list[i] = record.File{Name: f.Name, Media: f.Media, Data: f.Data}
	}
	return list, nil
}
