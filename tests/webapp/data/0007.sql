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
INSERT INTO "admission" VALUES('JxJ6_-BBqpa0','jPc0JavAHtVt','code','assistant','VwmrpRnswBxf','10846de2f397b2c9e9c1b6920319aecc1674d8e133004e2bc892f8f795809abd','YkmbdaRov6VQ',1796062595,1796063195,NULL,NULL,NULL);
INSERT INTO "admission" VALUES('P6uNK9_L85VH','jPc0JavAHtVt','sheet','head_coach',NULL,'0e948bc5596b38313ef00d5c82674d17d7ee6a084dd134344b061974d4237e69','YkmbdaRov6VQ',1796062595,NULL,NULL,NULL,NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0007');
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
INSERT INTO "board" VALUES('IV1xIcDLOsVS','4nAhQgoPyJqO','Tuesday practice','five_out','nba',0.9,1796062593,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('VwmrpRnswBxf','jPc0JavAHtVt','Tuesday','five_out','fiba',1.0,1796062595,'r_ky0xNxgFuNo4@1',NULL,'{"1": "2IksANju-pnx"}');
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
INSERT INTO "chain" VALUES('dQkjFGFwbFhG','4nAhQgoPyJqO','IV1xIcDLOsVS',1,5,'','','[]',0,0,1796062593,1796062593,NULL);
INSERT INTO "chain" VALUES('menWwRLHx80Y','4nAhQgoPyJqO','IV1xIcDLOsVS',6,10,'','','[]',0,0,1796062594,1796062594,NULL);
INSERT INTO "chain" VALUES('gPo_zInGkZ7O','4nAhQgoPyJqO','IV1xIcDLOsVS',11,11,'','','[]',0,0,1796062594,1796062594,NULL);
INSERT INTO "chain" VALUES('4vSZX9YAkXG9','4nAhQgoPyJqO','IV1xIcDLOsVS',12,15,'','','[]',0,0,1796062594,1796062594,NULL);
INSERT INTO "chain" VALUES('WzWwh_RUJyQl','jPc0JavAHtVt','VwmrpRnswBxf',16,16,'','','[]',0,0,1796062595,1796062595,NULL);
INSERT INTO "chain" VALUES('VTZS5RqJVvG-','jPc0JavAHtVt','VwmrpRnswBxf',17,23,'','','[]',0,0,1796062595,1796062595,NULL);
INSERT INTO "chain" VALUES('c1','jPc0JavAHtVt','VwmrpRnswBxf',18,20,'Quick','','[]',0,1,1796062595,1796062595,NULL);
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
INSERT INTO "change" VALUES('IV1xIcDLOsVS',1,'demo-1','act',2,NULL,1796062593);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',2,'demo-2','act',3,NULL,1796062593);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',3,'demo-3','act',4,NULL,1796062593);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',4,'demo-4','act',5,NULL,1796062593);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',5,'m1','setup',6,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',6,'m2','act',7,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',7,'m3','act',8,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',8,'m4','act',9,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',9,'m5','act',10,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',10,'m6','undo',9,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',11,'m7','undo',8,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',12,'m8','redo',9,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',13,'m9','act',10,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',14,'m10','fresh',11,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',15,'m11','setup',12,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',16,'m12','act',13,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',17,'m13','act',14,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',18,'m14','act',15,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('IV1xIcDLOsVS',19,'m15','undo',14,'BfHYR8ARojFs',1796062594);
INSERT INTO "change" VALUES('VwmrpRnswBxf',1,'m16','setup',17,'YkmbdaRov6VQ',1796062595);
INSERT INTO "change" VALUES('VwmrpRnswBxf',2,'m17','act',21,'YkmbdaRov6VQ',1796062595);
INSERT INTO "change" VALUES('VwmrpRnswBxf',3,'m18','act',22,'YkmbdaRov6VQ',1796062595);
INSERT INTO "change" VALUES('VwmrpRnswBxf',4,'m19','act',23,'YkmbdaRov6VQ',1796062595);
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
INSERT INTO "design" VALUES('ky0xNxgFuNo4','jPc0JavAHtVt','rules',1796062595,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('ky0xNxgFuNo4',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody rotates with a middle drive.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1796062595);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "done" VALUES('o1','jPc0JavAHtVt',1796062595);
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
INSERT INTO "ink" VALUES(17,'s1','VTZS5RqJVvG-',2,1,'[0,300,50,120,40,0]',0,1796062595);
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
INSERT INTO "join_code" VALUES('uXWA8IS1klXP','IV1xIcDLOsVS','c216da6b0152bdd6f862505268a10c6bcbfa12bdaf4bf203a01a245a12dfa607',1796062594,1796063194,0,NULL);
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
INSERT INTO "key" VALUES('BfHYR8ARojFs','4nAhQgoPyJqO',NULL,'r_Rfunc1yoNe','head_coach','e0fda9c65336dc56bb5e6fe0565217d91ae24b8052e8aba9ccd4aeccf8188195','a device',1796062594,1796062594,NULL);
INSERT INTO "key" VALUES('YkmbdaRov6VQ','jPc0JavAHtVt',NULL,NULL,'head_coach','84b73af3d090ba157d43eca859712b28cca0169f4299151cbdc946b6fd174ee2','a device',1796062595,1796062595,NULL);
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
INSERT INTO "link" VALUES('r_Rfunc1yoNe','IV1xIcDLOsVS','coach','head_coach','a4098e4fd19015d186022901dc774232f8e08be7e2ab9c301e4f44f866e2386e','this machine',NULL,1,1,1796062593,NULL);
INSERT INTO "link" VALUES('raipQYQvHQ-H','IV1xIcDLOsVS','view','viewer','2c258be501c39042ceb7849b665cd11bafb411917cb0b0f22a52aee57d271e94','players',NULL,0,0,1796062594,NULL);
INSERT INTO "link" VALUES('-_fF28Go_kjL','IV1xIcDLOsVS','view','viewer','a8b7e355d7f547b8cd589717cf1b102410dd46be072f816d09bac6624f604182','turned off',NULL,0,0,1796062594,1796062594);
INSERT INTO "link" VALUES('T90458lcK-Nu','VwmrpRnswBxf','coach','assistant','c79634cf484b63063467e4b6d706c31b546faaa27d1ce69ca14babdcf5f811a2','assistant',NULL,0,0,1796062595,NULL);
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
INSERT INTO "node" VALUES(1,'IV1xIcDLOsVS',NULL,0,'','five_out',1796062593,'pass_and_cut');
INSERT INTO "node" VALUES(2,'IV1xIcDLOsVS',1,1,'pass:right_wing',NULL,1796062593,NULL);
INSERT INTO "node" VALUES(3,'IV1xIcDLOsVS',2,2,'fill:left_corner pass:top',NULL,1796062593,NULL);
INSERT INTO "node" VALUES(4,'IV1xIcDLOsVS',3,3,'fill:right_corner drive:left',NULL,1796062593,NULL);
INSERT INTO "node" VALUES(5,'IV1xIcDLOsVS',4,4,'kick_out:left_corner',NULL,1796062593,NULL);
INSERT INTO "node" VALUES(6,'IV1xIcDLOsVS',NULL,0,'','four_out_one_in',1796062594,'pass_and_cut');
INSERT INTO "node" VALUES(7,'IV1xIcDLOsVS',6,1,'pass:left_slot',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(8,'IV1xIcDLOsVS',7,2,'fill:left_corner',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(9,'IV1xIcDLOsVS',8,3,'pass:left_wing',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(10,'IV1xIcDLOsVS',9,4,'fill:right_slot',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(11,'IV1xIcDLOsVS',NULL,0,'','four_out_one_in',1796062594,'pass_and_cut');
INSERT INTO "node" VALUES(12,'IV1xIcDLOsVS',NULL,0,'','five_out',1796062594,'pass_and_cut');
INSERT INTO "node" VALUES(13,'IV1xIcDLOsVS',12,1,'pass:right_wing',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(14,'IV1xIcDLOsVS',13,2,'fill:left_corner drive:left',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(15,'IV1xIcDLOsVS',14,3,'kick_out:left_corner',NULL,1796062594,NULL);
INSERT INTO "node" VALUES(16,'VwmrpRnswBxf',NULL,0,'','five_out',1796062595,'pass_and_cut');
INSERT INTO "node" VALUES(17,'VwmrpRnswBxf',NULL,0,'','five_out',1796062595,'r_ky0xNxgFuNo4@1');
INSERT INTO "node" VALUES(18,'VwmrpRnswBxf',NULL,0,'','five_out',1796062595,'pass_and_cut');
INSERT INTO "node" VALUES(19,'VwmrpRnswBxf',18,1,'pass:right_wing',NULL,1796062595,NULL);
INSERT INTO "node" VALUES(20,'VwmrpRnswBxf',19,2,'fill:left_corner',NULL,1796062595,NULL);
INSERT INTO "node" VALUES(21,'VwmrpRnswBxf',17,1,'pass:left_wing',NULL,1796062595,NULL);
INSERT INTO "node" VALUES(22,'VwmrpRnswBxf',21,2,'fill:right_corner',NULL,1796062595,NULL);
INSERT INTO "node" VALUES(23,'VwmrpRnswBxf',21,2,'post_up:right_block',NULL,1796062595,NULL);
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
INSERT INTO "place" VALUES('IV1xIcDLOsVS',19,12,14,15);
INSERT INTO "place" VALUES('VwmrpRnswBxf',4,17,23,23);
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
INSERT INTO "player" VALUES('2IksANju-pnx','jPc0JavAHtVt','7','Robin','[]','',NULL,'[]',1796062595,NULL);
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
INSERT INTO "team" VALUES('4nAhQgoPyJqO','Harbour Herons',1796062593,'{}','');
INSERT INTO "team" VALUES('jPc0JavAHtVt','Harbour Herons',1796062595,'{}','');
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
