-- +goose Up
PRAGMA user_version = 2;

-- The maker's own parts, and how many of each part the maker has. A built-in part has a row without
-- a body, for its stock alone.
CREATE TABLE saved_parts (
    id         TEXT PRIMARY KEY NOT NULL CHECK (length(id) BETWEEN 1 AND 48),
    body       TEXT,          -- the definition
    stock      INTEGER NOT NULL DEFAULT 0 CHECK (stock BETWEEN 0 AND 1000000),
    changed_ms INTEGER NOT NULL
) STRICT;

-- Outputs of plans under the revision they belong to. They can be worked out again; they are kept so
-- that what a maker has built from can still be read.
CREATE TABLE outputs (
    panel_id TEXT NOT NULL REFERENCES panels (id) ON DELETE CASCADE,
    rev      INTEGER NOT NULL CHECK (rev >= 0),
    name     TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    media    TEXT NOT NULL,
    body     BLOB NOT NULL,
    PRIMARY KEY (panel_id, rev, name)
) STRICT, WITHOUT ROWID;

-- Build steps that are done.
CREATE TABLE ticks (
    panel_id TEXT NOT NULL REFERENCES panels (id) ON DELETE CASCADE,
    step     TEXT NOT NULL CHECK (length(step) BETWEEN 1 AND 120),
    done_ms  INTEGER NOT NULL,
    PRIMARY KEY (panel_id, step)
) STRICT, WITHOUT ROWID;

-- Things that happen once in the life of a store, such as putting the demo panels in.
CREATE TABLE once (
    what  TEXT PRIMARY KEY NOT NULL,
    at_ms INTEGER NOT NULL
) STRICT;
