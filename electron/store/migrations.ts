/** "whrl" in ASCII: marks a SQLite file as a workspace of ours (PRAGMA application_id). */
export const applicationId = 0x7768726c

/**
 * The forms of a workspace file, oldest first: migration n brings a file from form n to n + 1
 * (PRAGMA user_version). A migration that has been released is never changed; a new form is a new entry.
 *
 * Times are ISO 8601 in UTC; probe, problem, reading, edit, inverse, tasks and seen are JSON of the contract's shapes;
 * timestamps are IEEE doubles, little-endian, one a frame, seconds, or NULL while nobody has looked.
 */
export const migrations: readonly string[] = [
  `
  PRAGMA application_id = ${applicationId};

  CREATE TABLE paddle (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL COLLATE NOCASE UNIQUE,
    notes TEXT NOT NULL,
    added_at TEXT NOT NULL
  ) STRICT;
  CREATE TABLE set_up (
    id TEXT PRIMARY KEY,
    paddle_id TEXT NOT NULL REFERENCES paddle ON DELETE CASCADE,
    name TEXT NOT NULL COLLATE NOCASE,
    notes TEXT NOT NULL,
    added_at TEXT NOT NULL,
    UNIQUE (paddle_id, name)
  ) STRICT;

  CREATE TABLE session (
    id TEXT PRIMARY KEY,
    day TEXT NOT NULL,
    place TEXT NOT NULL,
    camera_name TEXT NOT NULL,
    capture_fps REAL,
    relative_uncertainty REAL,
    exposure_seconds REAL,
    readout_seconds REAL,
    readout_uncertainty_seconds REAL,
    focal_length_px REAL,
    ball_name TEXT NOT NULL,
    ball_diameter_metres REAL NOT NULL,
    hit_by TEXT NOT NULL,
    max_rpm REAL,
    click_standard_uncertainty_px REAL,
    notes TEXT NOT NULL,
    added_at TEXT NOT NULL
  ) STRICT;
  CREATE INDEX session_by_day ON session (day);

  CREATE TABLE clip (
    id TEXT PRIMARY KEY,
    session_id TEXT NOT NULL REFERENCES session ON DELETE CASCADE,
    name TEXT NOT NULL,
    path TEXT NOT NULL,
    sha256 TEXT,
    probe TEXT,
    problem TEXT,
    timestamps_seconds BLOB,
    capture_fps_said REAL,
    added_at TEXT NOT NULL,
    UNIQUE (session_id, sha256)
  ) STRICT;
  CREATE INDEX clip_by_contents ON clip (sha256);

  CREATE TABLE hit (
    id TEXT PRIMARY KEY,
    clip_id TEXT NOT NULL REFERENCES clip ON DELETE CASCADE,
    set_up_id TEXT REFERENCES set_up,
    from_frame INTEGER NOT NULL,
    to_frame INTEGER NOT NULL,
    sense TEXT,
    settled TEXT,
    verdict TEXT NOT NULL,
    verdict_reason TEXT NOT NULL,
    notes TEXT NOT NULL,
    revision INTEGER NOT NULL,
    steps_taken INTEGER NOT NULL,
    added_at TEXT NOT NULL
  ) STRICT;
  CREATE INDEX hit_by_clip ON hit (clip_id, verdict);
  CREATE INDEX hit_by_set_up ON hit (set_up_id);

  CREATE TABLE mark (
    hit_id TEXT NOT NULL REFERENCES hit ON DELETE CASCADE,
    id TEXT NOT NULL,
    kind TEXT NOT NULL,
    symmetry_order INTEGER NOT NULL,
    PRIMARY KEY (hit_id, id)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE outline (
    hit_id TEXT NOT NULL REFERENCES hit ON DELETE CASCADE,
    frame INTEGER NOT NULL,
    x_px REAL NOT NULL,
    y_px REAL NOT NULL,
    radius_px REAL NOT NULL,
    PRIMARY KEY (hit_id, frame)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE sighting (
    hit_id TEXT NOT NULL,
    mark TEXT NOT NULL,
    frame INTEGER NOT NULL,
    kind TEXT NOT NULL,
    x_px REAL,
    y_px REAL,
    bearing_deg REAL,
    PRIMARY KEY (hit_id, mark, frame),
    FOREIGN KEY (hit_id, mark) REFERENCES mark ON DELETE CASCADE
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE step (
    hit_id TEXT NOT NULL REFERENCES hit ON DELETE CASCADE,
    number INTEGER NOT NULL,
    edit TEXT NOT NULL,
    inverse TEXT NOT NULL,
    taken_at TEXT NOT NULL,
    PRIMARY KEY (hit_id, number)
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE reading (
    hit_id TEXT PRIMARY KEY REFERENCES hit ON DELETE CASCADE,
    reading TEXT NOT NULL,
    method_version TEXT NOT NULL,
    revision INTEGER NOT NULL,
    digest TEXT NOT NULL,
    made_at TEXT NOT NULL
  ) STRICT;

  CREATE TABLE recent_target (
    path TEXT PRIMARY KEY,
    used_at TEXT NOT NULL
  ) STRICT, WITHOUT ROWID;
  `,
  `
  CREATE TABLE study (
    id TEXT PRIMARY KEY,
    session_id TEXT NOT NULL REFERENCES session ON DELETE CASCADE,
    person TEXT NOT NULL,
    tasks TEXT NOT NULL,
    added_at TEXT NOT NULL
  ) STRICT;
  CREATE INDEX study_by_session ON study (session_id);
  CREATE TABLE study_remark (
    study_id TEXT NOT NULL REFERENCES study ON DELETE CASCADE,
    place INTEGER NOT NULL,
    seen TEXT NOT NULL,
    made_at TEXT NOT NULL,
    PRIMARY KEY (study_id, place)
  ) STRICT, WITHOUT ROWID;
  `,
  `
  CREATE TABLE metric (
    paddle_id TEXT NOT NULL REFERENCES paddle ON DELETE CASCADE,
    set_up_id TEXT REFERENCES set_up ON DELETE CASCADE,
    name TEXT NOT NULL COLLATE NOCASE,
    unit TEXT NOT NULL,
    value ANY NOT NULL,
    source TEXT NOT NULL,
    imported_at TEXT NOT NULL
  ) STRICT;
  CREATE UNIQUE INDEX metric_once ON metric (paddle_id, ifnull(set_up_id, ''), name);
  CREATE INDEX metric_by_set_up ON metric (set_up_id);
  CREATE TABLE target_mapping (
    target TEXT PRIMARY KEY,
    mapping TEXT NOT NULL
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE transfer (
    id TEXT PRIMARY KEY,
    kind TEXT NOT NULL,
    place TEXT NOT NULL,
    done_at TEXT NOT NULL,
    said TEXT NOT NULL,
    way_back TEXT NOT NULL,
    undone_at TEXT
  ) STRICT;
  CREATE INDEX transfer_by_time ON transfer (done_at);
  `,
  // A kept figure goes whenever something under it changes; who needs it next makes it again.
  `
  CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
  CREATE TABLE set_up_figure (
    set_up_id TEXT PRIMARY KEY REFERENCES set_up ON DELETE CASCADE,
    figure TEXT NOT NULL,
    made_by TEXT NOT NULL
  ) STRICT;
  CREATE TRIGGER figure_hit_added AFTER INSERT ON hit BEGIN
    DELETE FROM set_up_figure WHERE set_up_id = NEW.set_up_id;
  END;
  CREATE TRIGGER figure_hit_changed
  AFTER UPDATE OF set_up_id, settled, verdict, verdict_reason, revision ON hit BEGIN
    DELETE FROM set_up_figure WHERE set_up_id IN (OLD.set_up_id, NEW.set_up_id);
  END;
  CREATE TRIGGER figure_hit_removed AFTER DELETE ON hit BEGIN
    DELETE FROM set_up_figure WHERE set_up_id = OLD.set_up_id;
  END;
  CREATE TRIGGER figure_hit_read AFTER INSERT ON reading BEGIN
    DELETE FROM set_up_figure WHERE set_up_id = (SELECT set_up_id FROM hit WHERE id = NEW.hit_id);
  END;
  CREATE TRIGGER figure_session_changed AFTER UPDATE OF day, camera_name ON session
  WHEN (OLD.day, OLD.camera_name) IS NOT (NEW.day, NEW.camera_name) BEGIN
    DELETE FROM set_up_figure WHERE set_up_id IN (
      SELECT hit.set_up_id FROM hit JOIN clip ON clip.id = hit.clip_id WHERE clip.session_id = NEW.id);
  END;
  `,
  // asked says what a reading was made from; the same asked again has the same answer.
  `
  ALTER TABLE hit ADD COLUMN read_from TEXT NOT NULL DEFAULT 'marks';
  ALTER TABLE outline ADD COLUMN found INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE sighting ADD COLUMN accepted INTEGER NOT NULL DEFAULT 0;
  CREATE TABLE surface (
    hit_id TEXT PRIMARY KEY REFERENCES hit ON DELETE CASCADE,
    asked TEXT NOT NULL,
    reading TEXT NOT NULL,
    focal_length_px REAL,
    feature TEXT
  ) STRICT;
  CREATE TABLE flights_read (
    sha256 TEXT NOT NULL,
    asked TEXT NOT NULL,
    flights TEXT NOT NULL,
    made_at TEXT NOT NULL,
    PRIMARY KEY (sha256, asked)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE read_queue (
    place INTEGER PRIMARY KEY,
    clip_id TEXT NOT NULL UNIQUE REFERENCES clip ON DELETE CASCADE,
    state TEXT NOT NULL,
    said TEXT NOT NULL
  ) STRICT;
  CREATE TABLE watched_folder (
    session_id TEXT PRIMARY KEY REFERENCES session ON DELETE CASCADE,
    folder TEXT NOT NULL,
    known TEXT NOT NULL
  ) STRICT;
  `,
  // A session holds what it took of a camera, and a reading what it was made with: copies, no links.
  `
  CREATE TABLE camera (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL COLLATE NOCASE UNIQUE,
    details TEXT NOT NULL,
    added_at TEXT NOT NULL
  ) STRICT;
  ALTER TABLE session ADD COLUMN camera_taken_from TEXT;
  ALTER TABLE reading ADD COLUMN used TEXT;
  CREATE TABLE test_day (
    session_id TEXT PRIMARY KEY REFERENCES session ON DELETE CASCADE,
    asked TEXT NOT NULL,
    clip_holds TEXT NOT NULL
  ) STRICT;
  CREATE TABLE turn (
    session_id TEXT NOT NULL REFERENCES test_day ON DELETE CASCADE,
    place INTEGER NOT NULL,
    block INTEGER NOT NULL,
    set_up_id TEXT NOT NULL REFERENCES set_up,
    hits INTEGER NOT NULL,
    is_reference INTEGER NOT NULL,
    fresh_ball INTEGER NOT NULL,
    left_out INTEGER NOT NULL,
    PRIMARY KEY (session_id, place)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX turn_by_set_up ON turn (set_up_id);
  CREATE TABLE turn_clip (
    clip_id TEXT PRIMARY KEY REFERENCES clip ON DELETE CASCADE,
    session_id TEXT NOT NULL,
    place INTEGER NOT NULL,
    FOREIGN KEY (session_id, place) REFERENCES turn ON DELETE CASCADE
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX turn_clip_by_turn ON turn_clip (session_id, place);
  `,
  // What lists show of a reading, in an index of its own: a list of thousands need not open the readings.
  `
  ALTER TABLE reading ADD COLUMN listed TEXT;
  UPDATE reading SET listed = json_object(
    'rpm', reading -> '$.rpm', 'band', reading -> '$.band',
    'flag', reading -> '$.flag', 'counted', reading -> '$.counted');
  CREATE INDEX reading_listed ON reading (hit_id, revision, method_version, listed);
  `,
]
