CREATE TABLE admission (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	board_id VARCHAR, 
	secret_hash VARCHAR NOT NULL, 
	by_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER, 
	used INTEGER, 
	key_id VARCHAR, 
	revoked INTEGER, 
	CONSTRAINT pk_admission PRIMARY KEY (id), 
	CONSTRAINT ck_admission_kind CHECK (kind IN ('code', 'sheet')), 
	CONSTRAINT ck_admission_role CHECK (role IN ('head_coach', 'assistant')), 
	CONSTRAINT fk_admission_team_id_team FOREIGN KEY(team_id) REFERENCES team (id), 
	CONSTRAINT fk_admission_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_admission_by_id_key FOREIGN KEY(by_id) REFERENCES "key" (id), 
	CONSTRAINT fk_admission_key_id_key FOREIGN KEY(key_id) REFERENCES "key" (id), 
	CONSTRAINT uq_admission_secret_hash UNIQUE (secret_hash)
);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0008');
CREATE TABLE board (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	formation VARCHAR NOT NULL, 
	court VARCHAR NOT NULL, 
	level DOUBLE NOT NULL, 
	made INTEGER NOT NULL, rules VARCHAR DEFAULT 'pass_and_cut' NOT NULL, stage INTEGER, places VARCHAR DEFAULT '{}' NOT NULL, 
	CONSTRAINT pk_board PRIMARY KEY (id), 
	CONSTRAINT fk_board_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE chain (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	root_id INTEGER NOT NULL, 
	line_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	tags VARCHAR NOT NULL, 
	pinned BOOLEAN NOT NULL, 
	kept BOOLEAN NOT NULL, 
	made INTEGER NOT NULL, 
	used INTEGER NOT NULL, 
	deleted INTEGER, occasion VARCHAR DEFAULT '' NOT NULL, rank INTEGER DEFAULT '0' NOT NULL, 
	CONSTRAINT pk_chain PRIMARY KEY (id), 
	CONSTRAINT fk_chain_team_id_team FOREIGN KEY(team_id) REFERENCES team (id), 
	CONSTRAINT fk_chain_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_chain_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_chain_line_id_node FOREIGN KEY(line_id) REFERENCES node (id), 
	CONSTRAINT uq_chain_root_id UNIQUE (root_id)
);
CREATE TABLE change (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	message_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	node_id INTEGER NOT NULL, 
	key_id VARCHAR, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_change PRIMARY KEY (board_id, seq), 
	CONSTRAINT fk_change_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_change_key_id_key FOREIGN KEY(key_id) REFERENCES "key" (id), 
	CONSTRAINT fk_change_node_id_node FOREIGN KEY(node_id) REFERENCES node (id), 
	CONSTRAINT uq_change_board_id UNIQUE (board_id, message_id)
);
CREATE TABLE design (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_design PRIMARY KEY (id), 
	CONSTRAINT ck_design_kind CHECK (kind IN ('rules', 'formation')), 
	CONSTRAINT fk_design_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE ink (
	node_id INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	chain_id VARCHAR NOT NULL, 
	tool INTEGER NOT NULL, 
	colour INTEGER NOT NULL, 
	points VARCHAR NOT NULL, 
	gone BOOLEAN NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_ink PRIMARY KEY (node_id, id), 
	CONSTRAINT fk_ink_chain_id_chain FOREIGN KEY(chain_id) REFERENCES chain (id), 
	CONSTRAINT fk_ink_node_id_node FOREIGN KEY(node_id) REFERENCES node (id)
);
CREATE TABLE join_code (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	code_hash VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER NOT NULL, 
	uses INTEGER NOT NULL, link_id VARCHAR, 
	CONSTRAINT pk_join_code PRIMARY KEY (id), 
	CONSTRAINT fk_join_code_board_id_board FOREIGN KEY(board_id) REFERENCES board (id)
);
CREATE TABLE "key" (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	board_id VARCHAR, 
	link_id VARCHAR, 
	role VARCHAR NOT NULL, 
	secret_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	seen INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_key PRIMARY KEY (id), 
	CONSTRAINT ck_key_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_key_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_key_link_id_link FOREIGN KEY(link_id) REFERENCES link (id), 
	CONSTRAINT fk_key_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE lineup (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	places VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_lineup PRIMARY KEY (id), 
	CONSTRAINT fk_lineup_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE link (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	token_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	code_id VARCHAR, 
	automatic BOOLEAN NOT NULL, 
	uses INTEGER NOT NULL, 
	made INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_link PRIMARY KEY (id), 
	CONSTRAINT ck_link_kind CHECK (kind IN ('view', 'coach')), 
	CONSTRAINT ck_link_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_link_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_link_code_id_join_code FOREIGN KEY(code_id) REFERENCES join_code (id), 
	CONSTRAINT uq_link_token_hash UNIQUE (token_hash)
);
CREATE TABLE node (
	id INTEGER NOT NULL, 
	board_id VARCHAR NOT NULL, 
	parent_id INTEGER, 
	depth INTEGER NOT NULL, 
	actions VARCHAR NOT NULL, 
	formation VARCHAR, 
	made INTEGER NOT NULL, rules VARCHAR, 
	CONSTRAINT pk_node PRIMARY KEY (id), 
	CONSTRAINT fk_node_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_node_parent_id_node FOREIGN KEY(parent_id) REFERENCES node (id)
);
CREATE TABLE place (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	root_id INTEGER NOT NULL, 
	cursor_id INTEGER NOT NULL, 
	tip_id INTEGER NOT NULL, 
	CONSTRAINT pk_place PRIMARY KEY (board_id), 
	CONSTRAINT fk_place_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_place_cursor_id_node FOREIGN KEY(cursor_id) REFERENCES node (id), 
	CONSTRAINT fk_place_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_place_tip_id_node FOREIGN KEY(tip_id) REFERENCES node (id)
);
CREATE TABLE player (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	number VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	positions VARCHAR NOT NULL, 
	hand VARCHAR NOT NULL, 
	may VARCHAR, 
	lane VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_player PRIMARY KEY (id), 
	CONSTRAINT fk_player_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE server_lock (
	id INTEGER NOT NULL, 
	generation INTEGER NOT NULL, 
	CONSTRAINT pk_server_lock PRIMARY KEY (id), 
	CONSTRAINT ck_server_lock_one_row CHECK (id = 1)
);
INSERT INTO "server_lock" VALUES(1,0);
CREATE TABLE team (
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, calls VARCHAR DEFAULT '{}' NOT NULL, language VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_team PRIMARY KEY (id)
);
CREATE INDEX ix_board_team_id ON board (team_id);
CREATE INDEX ix_join_code_board_id ON join_code (board_id);
CREATE INDEX ix_join_code_code_hash ON join_code (code_hash);
CREATE INDEX ix_node_board_id ON node (board_id);
CREATE INDEX ix_node_parent_id ON node (parent_id);
CREATE INDEX ix_link_board_id ON link (board_id);
CREATE INDEX ix_key_link_id ON "key" (link_id);
CREATE INDEX ix_key_team_id ON "key" (team_id);
CREATE INDEX ix_change_node_id ON change (node_id);
CREATE INDEX ix_player_team_id ON player (team_id);
CREATE INDEX ix_lineup_team_id ON lineup (team_id);
CREATE INDEX ix_design_team_id ON design (team_id);
CREATE INDEX ix_chain_team_id ON chain (team_id);
CREATE INDEX ix_admission_team_id ON admission (team_id);
CREATE INDEX ix_ink_chain_id ON ink (chain_id);
CREATE INDEX ix_join_code_link_id ON join_code (link_id);
