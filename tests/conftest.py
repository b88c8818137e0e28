"""What all tests share: the mark of those that open a drawing in another program."""


def pytest_configure(config):
    config.addinivalue_line("markers", "readers: opens a drawing in a browser or another program; slower")
