// @ts-check
// What the address says: the face up, what is selected, the step on the bench. The page's state lives
// there, so that loading it again shows the same.

/** @type {(name: string) => string} */
export const asked = (name) => new URLSearchParams(location.search).get(name) ?? '';

/** @type {(changes: Record<string, string>) => void} an empty value takes the name away */
export const setAsked = (changes) => {
  const q = new URLSearchParams(location.search);
  for (const [name, value] of Object.entries(changes)) {
    if (value) q.set(name, value); else q.delete(name);
  }
  const text = q.toString().replaceAll('%2C', ',');
  history.replaceState(null, '', location.pathname + (text ? `?${text}` : ''));
};

/** @type {(href: string) => void} */
export const goTo = (href) => history.replaceState(null, '', href);
