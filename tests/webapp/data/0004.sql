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
INSERT INTO "admission" VALUES('dKegR0PzkbOY','LhkaAeOm--IC','code','assistant','oa21LMXmjGgU','f0de57c766be7863bc67d6352bf99fd13f0e46504debbf2ca2782c859ffbc05f','3YJBv-Nm8h1m',1795610379,1795610979,NULL,NULL,NULL);
INSERT INTO "admission" VALUES('jTbqDOTiJLAS','LhkaAeOm--IC','sheet','head_coach',NULL,'e71ae166882799066356eaaa32969ec396524443cc552439bd5765280d4867c9','3YJBv-Nm8h1m',1795610379,NULL,NULL,NULL,NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0004');
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
INSERT INTO "board" VALUES('tLqSo-qNVDb1','2r5l4oPeVlaW','Tuesday practice','five_out','nba',0.9,1795610372,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('oa21LMXmjGgU','LhkaAeOm--IC','Tuesday','five_out','fiba',1.0,1795610378,'r_3Tidq5nVleoq@1',NULL,'{"1": "3lABeT-cqD0C"}');
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
	deleted INTEGER, 
	CONSTRAINT pk_chain PRIMARY KEY (id), 
	CONSTRAINT fk_chain_team_id_team FOREIGN KEY(team_id) REFERENCES team (id), 
	CONSTRAINT fk_chain_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_chain_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_chain_line_id_node FOREIGN KEY(line_id) REFERENCES node (id), 
	CONSTRAINT uq_chain_root_id UNIQUE (root_id)
);
INSERT INTO "chain" VALUES('HMM3vAMCiQNN','2r5l4oPeVlaW','tLqSo-qNVDb1',1,5,'','','[]',0,0,1795610372,1795610372,NULL);
INSERT INTO "chain" VALUES('zFbIf2N2Bm5j','2r5l4oPeVlaW','tLqSo-qNVDb1',6,10,'','','[]',0,0,1795610376,1795610377,NULL);
INSERT INTO "chain" VALUES('Qc_8vSt3Vhve','2r5l4oPeVlaW','tLqSo-qNVDb1',11,11,'','','[]',0,0,1795610377,1795610377,NULL);
INSERT INTO "chain" VALUES('rMX8vh-sKSxQ','2r5l4oPeVlaW','tLqSo-qNVDb1',12,15,'','','[]',0,0,1795610377,1795610378,NULL);
INSERT INTO "chain" VALUES('4qtqLvb7gi2L','LhkaAeOm--IC','oa21LMXmjGgU',16,16,'','','[]',0,0,1795610378,1795610378,NULL);
INSERT INTO "chain" VALUES('mwxKLW_KDF_h','LhkaAeOm--IC','oa21LMXmjGgU',17,23,'','','[]',0,0,1795610379,1795610380,NULL);
INSERT INTO "chain" VALUES('c1','LhkaAeOm--IC','oa21LMXmjGgU',18,20,'Quick','','[]',0,1,1795610379,1795610379,NULL);
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
INSERT INTO "change" VALUES('tLqSo-qNVDb1',1,'demo-1','act',2,NULL,1795610372);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',2,'demo-2','act',3,NULL,1795610372);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',3,'demo-3','act',4,NULL,1795610372);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',4,'demo-4','act',5,NULL,1795610372);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',5,'m1','setup',6,'_4z23rF8MPjc',1795610376);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',6,'m2','act',7,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',7,'m3','act',8,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',8,'m4','act',9,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',9,'m5','act',10,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',10,'m6','undo',9,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',11,'m7','undo',8,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',12,'m8','redo',9,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',13,'m9','act',10,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',14,'m10','fresh',11,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',15,'m11','setup',12,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',16,'m12','act',13,'_4z23rF8MPjc',1795610377);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',17,'m13','act',14,'_4z23rF8MPjc',1795610378);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',18,'m14','act',15,'_4z23rF8MPjc',1795610378);
INSERT INTO "change" VALUES('tLqSo-qNVDb1',19,'m15','undo',14,'_4z23rF8MPjc',1795610378);
INSERT INTO "change" VALUES('oa21LMXmjGgU',1,'m16','setup',17,'3YJBv-Nm8h1m',1795610379);
INSERT INTO "change" VALUES('oa21LMXmjGgU',2,'m17','act',21,'3YJBv-Nm8h1m',1795610379);
INSERT INTO "change" VALUES('oa21LMXmjGgU',3,'m18','act',22,'3YJBv-Nm8h1m',1795610379);
INSERT INTO "change" VALUES('oa21LMXmjGgU',4,'m19','act',23,'3YJBv-Nm8h1m',1795610380);
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
INSERT INTO "design" VALUES('3Tidq5nVleoq','LhkaAeOm--IC','rules',1795610379,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('3Tidq5nVleoq',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody rotates with a middle drive.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1795610379);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "done" VALUES('o1','LhkaAeOm--IC',1795610379);
CREATE TABLE join_code (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	code_hash VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER NOT NULL, 
	uses INTEGER NOT NULL, 
	CONSTRAINT pk_join_code PRIMARY KEY (id), 
	CONSTRAINT fk_join_code_board_id_board FOREIGN KEY(board_id) REFERENCES board (id)
);
INSERT INTO "join_code" VALUES('mBCYp5uVTPfU','tLqSo-qNVDb1','5b54cb5945c5752a2372839bb5a3fde2f31e69b4b415848e01e73fb4dce7ff51',1795610378,1795610978,0);
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
INSERT INTO "key" VALUES('_4z23rF8MPjc','2r5l4oPeVlaW',NULL,'wMhaHbQKvvyT','head_coach','aa650e97d74afe68f95512451d145470f2bf5a53bbafea6ad802acf1829f38cc','a device',1795610376,1795610376,NULL);
INSERT INTO "key" VALUES('3YJBv-Nm8h1m','LhkaAeOm--IC',NULL,NULL,'head_coach','779b140a013b5c87c2b29548b7c9e1b4eb14ea0e6cdea1c92a9f340f7d3cafde','a device',1795610378,1795610378,NULL);
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
INSERT INTO "link" VALUES('wMhaHbQKvvyT','tLqSo-qNVDb1','coach','head_coach','507645f1576e4275a26e88a2e85a06807a9b8a1738fed06aae5bad5f6ae77c20','this machine',NULL,1,1,1795610372,NULL);
INSERT INTO "link" VALUES('t6BqpadSC_18','tLqSo-qNVDb1','view','viewer','959ef163e35a5d16e30d0cf5d5ecba907913475da15febc77b25b5d2b1527838','players',NULL,0,0,1795610378,NULL);
INSERT INTO "link" VALUES('JV5YpHDuT9Ru','tLqSo-qNVDb1','view','viewer','ad7d3dfee33c9261c68410e9d2734e6c761ee440e2930ea3b76e076af3630ae9','turned off',NULL,0,0,1795610378,1795610378);
INSERT INTO "link" VALUES('24j5lx8-QSd5','oa21LMXmjGgU','coach','assistant','1dda3f944bb447a133e8e0db9c2a234c2ab220047b0db02f264432e3f7e0a903','assistant',NULL,0,0,1795610378,NULL);
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
INSERT INTO "node" VALUES(1,'tLqSo-qNVDb1',NULL,0,'','five_out',1795610372,'pass_and_cut');
INSERT INTO "node" VALUES(2,'tLqSo-qNVDb1',1,1,'pass:right_wing',NULL,1795610372,NULL);
INSERT INTO "node" VALUES(3,'tLqSo-qNVDb1',2,2,'fill:left_corner pass:top',NULL,1795610372,NULL);
INSERT INTO "node" VALUES(4,'tLqSo-qNVDb1',3,3,'fill:right_corner drive:left',NULL,1795610372,NULL);
INSERT INTO "node" VALUES(5,'tLqSo-qNVDb1',4,4,'kick_out:left_corner',NULL,1795610372,NULL);
INSERT INTO "node" VALUES(6,'tLqSo-qNVDb1',NULL,0,'','four_out_one_in',1795610376,'pass_and_cut');
INSERT INTO "node" VALUES(7,'tLqSo-qNVDb1',6,1,'skip:left_wing',NULL,1795610377,NULL);
INSERT INTO "node" VALUES(8,'tLqSo-qNVDb1',7,2,'fill:left_corner',NULL,1795610377,NULL);
INSERT INTO "node" VALUES(9,'tLqSo-qNVDb1',8,3,'pass:left_corner',NULL,1795610377,NULL);
INSERT INTO "node" VALUES(10,'tLqSo-qNVDb1',9,4,'fill:right_slot',NULL,1795610377,NULL);
INSERT INTO "node" VALUES(11,'tLqSo-qNVDb1',NULL,0,'','four_out_one_in',1795610377,'pass_and_cut');
INSERT INTO "node" VALUES(12,'tLqSo-qNVDb1',NULL,0,'','five_out',1795610377,'pass_and_cut');
INSERT INTO "node" VALUES(13,'tLqSo-qNVDb1',12,1,'pass:right_wing',NULL,1795610377,NULL);
INSERT INTO "node" VALUES(14,'tLqSo-qNVDb1',13,2,'fill:left_corner drive:left',NULL,1795610378,NULL);
INSERT INTO "node" VALUES(15,'tLqSo-qNVDb1',14,3,'kick_out:left_corner',NULL,1795610378,NULL);
INSERT INTO "node" VALUES(16,'oa21LMXmjGgU',NULL,0,'','five_out',1795610378,'pass_and_cut');
INSERT INTO "node" VALUES(17,'oa21LMXmjGgU',NULL,0,'','five_out',1795610379,'r_3Tidq5nVleoq@1');
INSERT INTO "node" VALUES(18,'oa21LMXmjGgU',NULL,0,'','five_out',1795610379,'pass_and_cut');
INSERT INTO "node" VALUES(19,'oa21LMXmjGgU',18,1,'pass:right_wing',NULL,1795610379,NULL);
INSERT INTO "node" VALUES(20,'oa21LMXmjGgU',19,2,'fill:left_corner',NULL,1795610379,NULL);
INSERT INTO "node" VALUES(21,'oa21LMXmjGgU',17,1,'pass:left_wing',NULL,1795610379,NULL);
INSERT INTO "node" VALUES(22,'oa21LMXmjGgU',21,2,'fill:right_corner',NULL,1795610379,NULL);
INSERT INTO "node" VALUES(23,'oa21LMXmjGgU',21,2,'post_up:right_block',NULL,1795610380,NULL);
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
INSERT INTO "place" VALUES('tLqSo-qNVDb1',19,12,14,15);
INSERT INTO "place" VALUES('oa21LMXmjGgU',4,17,23,23);
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
INSERT INTO "player" VALUES('3lABeT-cqD0C','LhkaAeOm--IC','7','Robin','[]','',NULL,'[]',1795610379,NULL);
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
	made INTEGER NOT NULL, calls VARCHAR DEFAULT '{}' NOT NULL, 
	CONSTRAINT pk_team PRIMARY KEY (id)
);
INSERT INTO "team" VALUES('2r5l4oPeVlaW','Harbour Herons',1795610372,'{}');
INSERT INTO "team" VALUES('LhkaAeOm--IC','Harbour Herons',1795610378,'{}');
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
COMMIT;
