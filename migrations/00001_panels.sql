-- +goose Up
PRAGMA application_id = 1181967201; -- 'Fsca': tells our files from those of other programs
PRAGMA user_version = 1;

-- A panel as the maker sees it now, and the project file from which its edits began. Nothing that
-- can be worked out from a panel is kept here.
CREATE TABLE panels (
    id         TEXT PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    name       TEXT NOT NULL,
    origin     TEXT NOT NULL, -- the project file at revision 0
    body       TEXT NOT NULL, -- the project file at revision rev
    rev        INTEGER NOT NULL DEFAULT 0 CHECK (rev >= 0),
    undo_top   INTEGER,       -- revision of the edit that undo takes back next
    redo_top   INTEGER,       -- revision of the edit that redo does again next
    created_ms INTEGER NOT NULL,
    changed_ms INTEGER NOT NULL,
    deleted_ms INTEGER,       -- in the trash since then
    FOREIGN KEY (id, undo_top) REFERENCES edits (panel_id, rev) DEFERRABLE INITIALLY DEFERRED,
    FOREIGN KEY (id, redo_top) REFERENCES edits (panel_id, rev) DEFERRABLE INITIALLY DEFERRED
) STRICT;

-- Every change of every panel, in order. Undo and redo are changes of their own: nothing is ever
-- rewound. Applying each body in turn to the origin gives the panel's body.
CREATE TABLE edits (
    panel_id   TEXT NOT NULL REFERENCES panels (id) ON DELETE CASCADE,
    rev        INTEGER NOT NULL CHECK (rev > 0),
    kind       TEXT NOT NULL CHECK (kind IN ('edit', 'undo', 'redo')),
    of_rev     INTEGER,       -- the edit that undo took back or redo did again
    under      INTEGER,       -- what lay below it: on the undo pile for an edit, on the redo pile for an undo
    base       INTEGER NOT NULL CHECK (base >= 0), -- the revision that the sender looked at
    name       TEXT NOT NULL, -- what the edit does, such as place
    label      TEXT NOT NULL, -- the same for the maker
    body       TEXT NOT NULL, -- the edit as it was applied
    inverse    TEXT NOT NULL, -- the edit that takes it back
    command_id TEXT NOT NULL CHECK (length(command_id) BETWEEN 1 AND 64),
    at_ms      INTEGER NOT NULL,
    PRIMARY KEY (panel_id, rev),
    UNIQUE (panel_id, command_id),
    FOREIGN KEY (panel_id, of_rev) REFERENCES edits (panel_id, rev),
    CHECK ((kind = 'edit') = (of_rev IS NULL)),
    CHECK (of_rev < rev),
    CHECK (under < rev)
) STRICT, WITHOUT ROWID;

CREATE INDEX edits_by_of_rev ON edits (panel_id, of_rev);

-- +goose StatementBegin
CREATE TRIGGER edits_stay_as_written BEFORE UPDATE ON edits
BEGIN
    SELECT RAISE(ABORT, 'edits are only ever added');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER edits_stay_with_their_panel BEFORE DELETE ON edits
WHEN EXISTS (SELECT 1 FROM panels WHERE id = OLD.panel_id)
BEGIN
    SELECT RAISE(ABORT, 'edits are only ever added');
END;
-- +goose StatementEnd
