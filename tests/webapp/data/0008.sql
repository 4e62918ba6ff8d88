BEGIN TRANSACTION;
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
INSERT INTO "admission" VALUES('fZPxA6mT-nSH','PkDYtXGIzOOV','code','assistant','bQEBE1gukEBq','503362cd8aadff3a5338126d4c78de02dd7a49cb5f991df46b96fe67724cd58e','soyLIplln720',1796089642,1796090242,NULL,NULL,NULL);
INSERT INTO "admission" VALUES('8qqo6kXwxpOw','PkDYtXGIzOOV','sheet','head_coach',NULL,'635802264ba6df6a27511dfdc68b304dd9a129e33a6febb0237eb438e633382d','soyLIplln720',1796089642,NULL,NULL,NULL,NULL);
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
INSERT INTO "board" VALUES('dXr5GUCNx-IE','GBxRm1-LmIZg','Tuesday practice','five_out','nba',0.9,1796089641,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('bQEBE1gukEBq','PkDYtXGIzOOV','Tuesday','five_out','fiba',1.0,1796089642,'r_Pa-PBH4Sb2RN@1',NULL,'{"1": "HYQoVwUUX1_t"}');
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
INSERT INTO "chain" VALUES('WVZbR_zyaNjC','GBxRm1-LmIZg','dXr5GUCNx-IE',1,5,'','','[]',0,0,1796089641,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('HGIc4NNAdn0I','GBxRm1-LmIZg','dXr5GUCNx-IE',6,10,'','','[]',0,0,1796089642,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('wVGHGg5tPkyP','GBxRm1-LmIZg','dXr5GUCNx-IE',11,11,'','','[]',0,0,1796089642,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('gdPq6zSKmTb5','GBxRm1-LmIZg','dXr5GUCNx-IE',12,15,'','','[]',0,0,1796089642,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('z-IDf3Kd_u3C','PkDYtXGIzOOV','bQEBE1gukEBq',16,16,'','','[]',0,0,1796089642,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('R5vvLVKujO33','PkDYtXGIzOOV','bQEBE1gukEBq',17,23,'','','[]',0,0,1796089642,1796089642,NULL,'',0);
INSERT INTO "chain" VALUES('c1','PkDYtXGIzOOV','bQEBE1gukEBq',18,20,'Quick','','[]',0,1,1796089642,1796089642,NULL,'',0);
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
INSERT INTO "change" VALUES('dXr5GUCNx-IE',1,'demo-1','act',2,NULL,1796089641);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',2,'demo-2','act',3,NULL,1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',3,'demo-3','act',4,NULL,1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',4,'demo-4','act',5,NULL,1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',5,'m1','setup',6,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',6,'m2','act',7,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',7,'m3','act',8,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',8,'m4','act',9,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',9,'m5','act',10,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',10,'m6','undo',9,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',11,'m7','undo',8,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',12,'m8','redo',9,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',13,'m9','act',10,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',14,'m10','fresh',11,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',15,'m11','setup',12,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',16,'m12','act',13,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',17,'m13','act',14,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',18,'m14','act',15,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('dXr5GUCNx-IE',19,'m15','undo',14,'4pdd3d7zSOht',1796089642);
INSERT INTO "change" VALUES('bQEBE1gukEBq',1,'m16','setup',17,'soyLIplln720',1796089642);
INSERT INTO "change" VALUES('bQEBE1gukEBq',2,'m17','act',21,'soyLIplln720',1796089642);
INSERT INTO "change" VALUES('bQEBE1gukEBq',3,'m18','act',22,'soyLIplln720',1796089642);
INSERT INTO "change" VALUES('bQEBE1gukEBq',4,'m19','act',23,'soyLIplln720',1796089642);
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
INSERT INTO "design" VALUES('Pa-PBH4Sb2RN','PkDYtXGIzOOV','rules',1796089642,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('Pa-PBH4Sb2RN',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody moves round with a middle drive. On such a drive other teams hold and fill in behind, as Drive and kick does: choose what you teach.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1796089642);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "done" VALUES('o1','PkDYtXGIzOOV',1796089642);
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
INSERT INTO "ink" VALUES(17,'s1','R5vvLVKujO33',2,1,'[0,300,50,120,40,0]',0,1796089642);
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
INSERT INTO "join_code" VALUES('mb6C5Gq7L3j8','dXr5GUCNx-IE','12c6bf3aa7b59c10c563ba4180bebd2ea1597b48db3f33e0f6592b81334244de',1796089642,1796090242,0,NULL);
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
INSERT INTO "key" VALUES('4pdd3d7zSOht','GBxRm1-LmIZg',NULL,'iQ-9fezFGmtM','head_coach','f9bc8fb2824bbd555664f631425e16bd656a10409bb6e44055f91410583b879d','a device',1796089642,1796089642,NULL);
INSERT INTO "key" VALUES('soyLIplln720','PkDYtXGIzOOV',NULL,NULL,'head_coach','56d494eac704b18eab34b001b1ef5066092afd0afe0eacebfb4f0e8546df5e90','a device',1796089642,1796089642,NULL);
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
INSERT INTO "link" VALUES('iQ-9fezFGmtM','dXr5GUCNx-IE','coach','head_coach','4405647895cf20ba695836d990872ae77cc5721463a2b0093b08bc793b78d36c','this machine',NULL,1,1,1796089642,NULL);
INSERT INTO "link" VALUES('7jGUJ7C67H7R','dXr5GUCNx-IE','view','viewer','64c4b6392dc06721b53f97c71f2558e9ee057b6d8c84ced6f676afe502cc51b8','players',NULL,0,0,1796089642,NULL);
INSERT INTO "link" VALUES('0abA2UT8xRh1','dXr5GUCNx-IE','view','viewer','e27d5da67567c24aa7f18ce106cba5087050d63bc2adabc332c4f7494aecd802','turned off',NULL,0,0,1796089642,1796089642);
INSERT INTO "link" VALUES('a0qdvk_jXrqy','bQEBE1gukEBq','coach','assistant','1b0c715c223a856736cda47db6f6d207033e025629d24a5d663c0cd223df2343','assistant',NULL,0,0,1796089642,NULL);
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
INSERT INTO "node" VALUES(1,'dXr5GUCNx-IE',NULL,0,'','five_out',1796089641,'pass_and_cut');
INSERT INTO "node" VALUES(2,'dXr5GUCNx-IE',1,1,'pass:right_wing',NULL,1796089641,NULL);
INSERT INTO "node" VALUES(3,'dXr5GUCNx-IE',2,2,'fill:left_corner pass:top',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(4,'dXr5GUCNx-IE',3,3,'fill:right_corner drive:left',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(5,'dXr5GUCNx-IE',4,4,'kick_out:left_corner',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(6,'dXr5GUCNx-IE',NULL,0,'','four_out_one_in',1796089642,'pass_and_cut');
INSERT INTO "node" VALUES(7,'dXr5GUCNx-IE',6,1,'pass:left_slot',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(8,'dXr5GUCNx-IE',7,2,'fill:left_corner',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(9,'dXr5GUCNx-IE',8,3,'pass:left_wing',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(10,'dXr5GUCNx-IE',9,4,'fill:right_slot',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(11,'dXr5GUCNx-IE',NULL,0,'','four_out_one_in',1796089642,'pass_and_cut');
INSERT INTO "node" VALUES(12,'dXr5GUCNx-IE',NULL,0,'','five_out',1796089642,'pass_and_cut');
INSERT INTO "node" VALUES(13,'dXr5GUCNx-IE',12,1,'pass:right_wing',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(14,'dXr5GUCNx-IE',13,2,'fill:left_corner drive:left',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(15,'dXr5GUCNx-IE',14,3,'kick_out:left_corner',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(16,'bQEBE1gukEBq',NULL,0,'','five_out',1796089642,'pass_and_cut');
INSERT INTO "node" VALUES(17,'bQEBE1gukEBq',NULL,0,'','five_out',1796089642,'r_Pa-PBH4Sb2RN@1');
INSERT INTO "node" VALUES(18,'bQEBE1gukEBq',NULL,0,'','five_out',1796089642,'pass_and_cut');
INSERT INTO "node" VALUES(19,'bQEBE1gukEBq',18,1,'pass:right_wing',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(20,'bQEBE1gukEBq',19,2,'fill:left_corner',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(21,'bQEBE1gukEBq',17,1,'pass:left_wing',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(22,'bQEBE1gukEBq',21,2,'fill:right_corner',NULL,1796089642,NULL);
INSERT INTO "node" VALUES(23,'bQEBE1gukEBq',21,2,'post_up:right_block',NULL,1796089642,NULL);
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
INSERT INTO "place" VALUES('dXr5GUCNx-IE',19,12,14,15);
INSERT INTO "place" VALUES('bQEBE1gukEBq',4,17,23,23);
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
INSERT INTO "player" VALUES('HYQoVwUUX1_t','PkDYtXGIzOOV','7','Robin','[]','',NULL,'[]',1796089642,NULL);
CREATE TABLE server_lock (
	id INTEGER NOT NULL, 
	generation INTEGER NOT NULL, 
	CONSTRAINT pk_server_lock PRIMARY KEY (id), 
	CONSTRAINT ck_server_lock_one_row CHECK (id = 1)
);
INSERT INTO "server_lock" VALUES(1,2);
CREATE TABLE team (
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, calls VARCHAR DEFAULT '{}' NOT NULL, language VARCHAR DEFAULT '' NOT NULL, 
	CONSTRAINT pk_team PRIMARY KEY (id)
);
INSERT INTO "team" VALUES('GBxRm1-LmIZg','Harbour Herons',1796089641,'{}','');
INSERT INTO "team" VALUES('PkDYtXGIzOOV','Harbour Herons',1796089642,'{}','');
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
COMMIT;
